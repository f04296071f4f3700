// What does a bone get twice? Additive constraints that read what the owner's parent brings along already.
#pragma once

#include <vector>

#include "ligament/facts.hpp"

namespace ligament {

/// An additive constraint of final space that reads a part of a bone, and writes the same part on an owner whose parent already
/// takes that part over from that bone: as its descendant, or by constraints that read and write that part.
struct DoubleTransform {
    ConstraintId constraint = none;
    std::vector<std::uint32_t> sources;  ///< indices into Constraint::sources, ascending
    Parts parts = 0;                     ///< that arrive twice
};

/// In file order. What a weight of 1 replaces wholly is not taken over; nor does it count where the constraint and the way to the
/// parent are on at different stops of their switches only. Linear in the rig for each 64 bones that are read so from far away.
std::vector<DoubleTransform> find_double_transforms(const Rig& rig, const Dependencies& dependencies,
                                                    const std::vector<Switch>& switches);

}  // namespace ligament
