// How is a difference between two sides said?
#pragma once

#include "ligament/sides.hpp"

namespace ligament::checks {

/// What differs, and what it is on either side; of two bones.
Difference bone_difference(const Rig& rig, const DifferingPair& pair, const SideDifference& difference);

/// Of two properties.
Difference property_difference(const Rig& rig, const DifferingPair& pair, const SideDifference& difference);

}  // namespace ligament::checks
