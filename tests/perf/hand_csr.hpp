// How fast can a graph be walked at all? Compressed rows written by hand for this one purpose: near the floor.
#pragma once

#include "edge_list.hpp"

namespace ligament::perf {

/// Tarjan's components, Kahn's levels over them, and a breadth-first search, on rows of who needs a vertex.
Found walk_by_hand(const EdgeList& list);

/// The same, but Kahn goes first, and Tarjan only where a cycle leaves vertices over: lower still where a rig has no cycle.
Found walk_by_hand_kahn_first(const EdgeList& list);

}  // namespace ligament::perf
