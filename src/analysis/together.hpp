// Are several weights ever on at once?
#pragma once

#include <span>
#include <vector>

#include "ligament/switches.hpp"

namespace ligament {

/// Of each set of switches so many combinations are looked at, and of all sets together so many.
inline constexpr std::size_t together_limit = 256, together_limit_of_rig = 20'000;

/// For each set of gates: whether none of them is off in the default state, or in some combination of stops of the switches that
/// reach them (find_switches gives these). Weights driven by bones count as on; so does what lies beyond the limits. A set
/// without gates: yes. Sets that the same switches reach share their states.
std::vector<bool> find_together(const Rig& rig, const Dependencies& dependencies, const std::vector<Switch>& switches,
                                std::span<const std::vector<Gate>> sets);

}  // namespace ligament
