// What do our own functions make of a grain? The one file here that knows the inside of the library.
#pragma once

#include <cstddef>

#include "edge_list.hpp"
#include "ligament/graph.hpp"

namespace ligament::perf {

EdgeList edge_list_of(const Rig& rig, const Dependencies& dependencies, Grain grain);

/// The same as walk_by_hand with the rows, components and marks that the analysis uses.
Found walk_by_ours(const EdgeList& list);

/// Bytes an edge of what a grain keeps: rows and edges alone, each edge with its kind, maker and gate, and with its vertices.
struct IndexBytes {
    double rows_and_edges = 0, with_vertices = 0;
};
IndexBytes index_bytes(const Rig& rig, const Dependencies& dependencies, Grain grain);

/// The verdicts of the default state, without the list of controls of each bone that small rigs get: that is no part of a state.
std::size_t judge_default_state(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament::perf
