// What do the parts of the view of the body share? Bones in place, three projections, and what is found about them.
#pragma once

#include <vector>

#include "rest_frames.hpp"
#include "views.hpp"
#include "word_columns.hpp"

namespace ligament {

/// Where a bone lies at rest, in the space of the rig: metres, right-handed, +Y up.
struct BonePlace {
    Vector3 base{}, tip{};
    bool has_tip = false;   ///< given, or the base of the first bone below it that has its role
    bool is_known = false;  ///< false where numbers went beyond what can be drawn
};

/// Places of all bones. The transform of a bone is that of its parent times its own translation, rotation and scale, as
/// "Transformations" of the glTF 2.0 specification has it; a bone without rest stands as its parent does. Linear.
std::vector<BonePlace> find_places(const Rig& rig);

/// How one looks at the body. Page coordinates are metres, x to the right and y down.
enum class Side : std::uint8_t { front, side, top };
Point project(const Vector3& at, Side side);

/// What is wrong with a bone, for the list and for the mark on it.
struct BodyFinding {
    BoneId bone = none;
    std::string words;        ///< "orphaned; in cycle 2"
    bool unattached = false;  ///< hatched; else ringed
    bool alarming = true;     ///< false for what only rides on another bone
};

/// Unattached bones first, then those that are so in another state, then cycles, then what is carried; each in file order.
std::vector<BodyFinding> find_on_body(const Subject& subject);

/// What is drawn of the bones.
struct Body {
    const Subject& subject;
    std::vector<BonePlace> places;
    std::vector<BoneId> shown;  ///< in file order
    std::vector<BodyFinding> findings;
    std::vector<std::uint32_t> sharing;  ///< by bone: how many other bones lie in the same place
    std::size_t without_rest = 0, unknown = 0, left_out = 0, shared_places = 0;
    bool in_bulk = false;  ///< too many for a mark with a hover title each

    explicit Body(const Subject& subject);
};

/// One projection in its place on the page.
struct Panel {
    Side side = Side::front;
    Rect rect;         ///< what it may draw on, below its title
    Point centre;      ///< in projected metres: what stands in the middle of rect
    double scale = 1;  ///< px per metre

    Point at(const Vector3& point) const;
};

/// At most so many findings are numbered in the picture; all are ringed and listed.
inline constexpr std::size_t most_numbered = 60;

/// Draws one projection. Returns the groups that found room for their names.
std::vector<bool> add_panel(Scene& scene, const Body& body, const Panel& panel);

/// Everything that is said beside the picture. `named`: groups with their name in the picture.
std::vector<Said> words_of_body(const Body& body, const std::vector<bool>& named);

/// A number as people write it: 0.2, 100.
std::string plain_number(double value);

}  // namespace ligament
