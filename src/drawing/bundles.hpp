// Which arrows are drawn as one, because they tie one box to many bones of one group?
#pragma once

#include <vector>

#include "plan.hpp"

namespace ligament {

/// From so many bones of one group on, what an object follows there is one arrow from a box that stands for them.
inline constexpr std::size_t followed_in_one = 4;

/// From so many bones of one group on, not its own, what a property drives there is one arrow to a box that stands for them.
inline constexpr std::size_t driven_in_one = 6;

/// Adds these boxes and arrows to a plan that has the boxes of all of `folded`'s vertices, in their order. Tells which arrows of
/// `folded` are dealt with by that: none that is inert or in a cycle. The hover titles name the bones.
std::vector<bool> plan_bundles(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const FoldedRig& folded,
                               Plan& plan);

}  // namespace ligament
