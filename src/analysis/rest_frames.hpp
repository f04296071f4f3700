// Where does each bone stand at rest?
#pragma once

#include <mutex>
#include <optional>
#include <vector>

#include "ligament/rig.hpp"
#include "vectors.hpp"

namespace ligament {

/// A bone at rest in the space of the rig: the upper three rows of a 4 x 4 matrix that works on column vectors; and its turn and
/// size as a rig has them, without the shear that a matrix may come to.
struct RestFrame {
    std::array<Vector3, 3> linear{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};  ///< rows
    Vector3 origin{};
    Quaternion turn{0, 0, 0, 1};  ///< of length 1
    Vector3 size{1, 1, 1};
    bool is_known = false;  ///< the bone and all above it have a rest, and nothing overflows

    /// A direction of the bone's own space.
    Vector3 direct(const Vector3& own) const;
    /// A point of the bone's own space.
    Vector3 place(const Vector3& own) const;
};

/// Frames of all bones. The transform of a bone is that of its parent times its own translation, rotation and scale, as
/// "Transformations" of the glTF 2.0 specification has it; a bone without rest stands as its parent does. A quaternion that is
/// not of length 1 is brought to it. Linear.
std::vector<RestFrame> find_rest_frames(const Rig& rig);

/// The frames of a rig, found when somebody first asks for them, for several threads that may ask at once. The rig has to stay.
class RestFrames {
  public:
    explicit RestFrames(const Rig& rig) : rig_(rig) {}

    const std::vector<RestFrame>& all() const {
        std::call_once(once_, [this] { frames_ = find_rest_frames(rig_); });
        return frames_;
    }

  private:
    const Rig& rig_;
    mutable std::once_flag once_;
    mutable std::vector<RestFrame> frames_;
};

/// Whether a place can be reckoned with: neither NaN nor 1e100 or more.
bool is_within_bounds(const Vector3& v);

/// The end of a bone in the space of the rig: where its `tip` stands, which it has.
Vector3 rest_tip(const Bone& bone, const RestFrame& frame);

/// Where what a source names stands at rest: a place along the straight bone. None for an object, for a bent bone but at its
/// base, and where a rest or the tip that it takes is not known.
std::optional<Vector3> rest_place(const Rig& rig, const std::vector<RestFrame>& frames, const Source& source);

}  // namespace ligament
