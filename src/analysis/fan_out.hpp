// What hangs on a property? What it reaches through drivers and driven properties, and the bones that move with it.
#pragma once

#include <vector>

#include "ligament/facts.hpp"

namespace ligament {

/// As find_fan_out, without the bones moved. Linear in what is listed.
std::vector<FanOut> find_driven_targets(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
