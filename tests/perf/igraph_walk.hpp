// What does a general graph library in C take for the same? igraph (Debian libigraph-dev), which only tests link.
#pragma once

#include "edge_list.hpp"

namespace ligament::perf {

/// The same as walk_by_hand with igraph's components, topological sorting and breadth-first search.
Found walk_by_igraph(const EdgeList& list);

}  // namespace ligament::perf
