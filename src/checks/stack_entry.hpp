// Are two constraints the same entry of a stack, and two stacks the same stack?
#pragma once

#include <compare>

#include "ligament/rig.hpp"

namespace ligament::checks {

/// Equivalent for constraints of one kind that read the same of the same and write the same: sources (bone or object, at,
/// curved), target, pole, up, chain, space, axes, reads and writes. Names, weights, ranges and `additive` do not count. The one
/// axis of an aim, roll or stretch counts among the axes, the label of a custom constraint as its kind. A total order: stacks are
/// compared value by value, which mostly ends at the first source, where a text of each entry to compare by took a fifth of the
/// time of all checks.
std::weak_ordering compare_entries(const Constraint& a, const Constraint& b);

/// By the entries of all constraints that are not inert, in order.
std::weak_ordering compare_stacks(const Bone& a, const Bone& b);

}  // namespace ligament::checks
