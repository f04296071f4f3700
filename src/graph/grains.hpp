// How does the wiring of a rig look at each of the three grains?
#pragma once

#include "numbering.hpp"
#include "wiring.hpp"

namespace ligament {

/// One vertex a step, one edge a need.
Graph build_step_graph(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering,
                       const std::vector<Need>& needs);

/// Steps split into position, rotation and scale, poses into nine scalars; needs joined part by part or all to all.
/// `step` is the step graph of the same rig.
Graph build_channel_graph(const Graph& step, const std::vector<Need>& needs);

/// A bone's steps made one vertex. Order edges inside a bone vanish, and so do the poses that a solver reads; but a driver of
/// such a pose feeds the solver as well as the bone.
Graph build_bone_graph(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering,
                       const std::vector<Need>& needs);

}  // namespace ligament
