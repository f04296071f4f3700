// Are two constraints the same entry of a stack, and two stacks the same stack?
#pragma once

#include <string>

#include "ligament/rig.hpp"

namespace ligament::checks {

/// Equal for constraints of one kind that read the same of the same and write the same: sources (bone or object, at, curved),
/// target, pole, up, chain, space, axes, reads and writes. Names, weights, ranges and `additive` do not count. The one axis of an
/// aim, roll or stretch counts among the axes, the label of a custom constraint as its kind.
std::string entry_key(const Constraint& constraint);

/// The entries of all constraints of a bone that are not inert, in order; empty where there are none.
std::string stack_key(const Bone& bone);

}  // namespace ligament::checks
