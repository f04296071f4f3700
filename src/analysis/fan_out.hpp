// What hangs on a property? What it reaches through drivers and driven properties, and the bones that move with it.
#pragma once

#include <vector>

#include "ligament/facts.hpp"
#include "rows.hpp"

namespace ligament {

/// As find_fan_out, without the bones moved. Linear in what is listed.
std::vector<FanOut> find_driven_targets(const Rig& rig, const Dependencies& dependencies);

/// As find_fan_out of dependencies of which nothing is switched off. `needed_by`: of all edges of the motion graph that are not
/// inert.
std::vector<FanOut> find_fan_out(const Rig& rig, const Dependencies& dependencies, const Rows& needed_by);

}  // namespace ligament
