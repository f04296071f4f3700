// Which values of an element are not the same in two revisions?
#pragma once

#include <vector>

#include "ligament/comparison.hpp"

namespace ligament {

/// The changes of rig, groups, properties, objects, bones and constraints, in that order; what is gone stands behind what is
/// there. Near-linear in the rigs.
std::vector<Change> compare_elements(const Rig& before, const Dependencies& before_needs, const Rig& after,
                                     const Dependencies& after_needs, const Matching& matching);

}  // namespace ligament
