// Which constraints would move their bone out of its rest pose?
#pragma once

#include <vector>

#include "ligament/facts.hpp"
#include "rest_frames.hpp"

namespace ligament {

/// From where on places, rotations (degrees) and sizes are not the same.
struct RestTolerance {
    double distance = 0, angle = 0;
    double size = 0.001;  ///< for factors of scale
};

/// A constraint whose source does not stand where the owner stands at rest, though the owner is to take that over.
struct RestMove {
    ConstraintId constraint = none;
    double distance = 0, angle = 0;  ///< how far apart; 0 where it is not taken or within the tolerance
    bool is_resized = false;         ///< the scale differs
};

/// In file order. Looked at are transform, position and rotation constraints with all axes and one source of known rest, neither
/// additive nor in local space, that some state lets through; of a transform the parts that it takes whole. Bones whose own
/// channels (or those of bones above one of the two) are not known to be at rest in the default state are left out. Linear.
std::vector<RestMove> find_rest_moves(const Rig& rig, const Dependencies& dependencies, const RestFrames& frames,
                                      const SwitchFacts& switches, const RestTolerance& tolerance);

}  // namespace ligament
