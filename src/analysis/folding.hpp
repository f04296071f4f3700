// How is a walk told between bones? Drivers, properties, objects, solvers and a bone's own steps folded away.
#pragma once

#include <span>
#include <vector>

#include "ligament/facts.hpp"

namespace ligament {

/// One edge of a walk between bones: `edges` leads from bone or property `from` to `to` over what is neither.
FoldedEdge fold_edges(const Graph& graph, std::span<const PathEdge> edges, std::uint32_t from, std::uint32_t to);

/// A closed walk as edges between its bones, or between its properties where it has no bones. Starts at the first bone in file
/// order, there with the first one it goes on to.
std::vector<FoldedEdge> fold_closed_walk(const Dependencies& dependencies, const Graph& graph, std::vector<PathEdge> walk);

}  // namespace ligament
