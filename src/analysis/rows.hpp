// What do the algorithms run on? Compressed rows of what each vertex needs, picked from a graph by a rule.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "ligament/graph.hpp"

namespace ligament {

/// The vertices that v needs are needs[first[v]] up to needs[first[v + 1]], in the order of the graph.
struct Rows {
    std::vector<std::uint32_t> first{0};  ///< size vertices + 1
    std::vector<std::uint32_t> needs;

    std::uint32_t size() const { return static_cast<std::uint32_t>(first.size() - 1); }
    std::span<const std::uint32_t> of(std::uint32_t v) const { return {needs.data() + first[v], needs.data() + first[v + 1]}; }
};

/// The rows of all edges into v for which `keep(v, edge)` holds. Linear.
template <class Keep>
Rows pick_rows(const Graph& graph, Keep keep) {
    Rows rows;
    const auto size = static_cast<VertexId>(graph.vertices.size());
    rows.first.reserve(size + 1);
    rows.needs.resize(graph.edges.size());
    std::uint32_t* next = rows.needs.data();
    for (VertexId v = 0; v < size; ++v) {
        for (const Edge& edge : graph.needs(v))
            if (keep(v, edge)) *next++ = edge.from;
        rows.first.push_back(static_cast<std::uint32_t>(next - rows.needs.data()));
    }
    rows.needs.resize(rows.first.back());
    return rows;
}

/// The rows of all edges that are not inert.
Rows live_rows(const Dependencies& dependencies, const Graph& graph);

/// Who needs v instead of what v needs, ascending, for `size` vertices that are needed. Linear.
Rows reversed(const Rows& rows, std::uint32_t size);

}  // namespace ligament
