#include "witness.hpp"

#include <utility>

#include "fewest.hpp"

namespace ligament {

namespace {

/// A core in which vertices are taken away until no cycle is left.
struct Shrinking {
    const Core& core;
    PricedRows graph;
    Rows needed_by;
    std::vector<std::uint32_t> needs_left, needed_left;  ///< by vertex: edges from and to vertices that are left
    std::vector<std::uint8_t> is_start;                  ///< by vertex: an edge with a price starts there
    FewestSearch search;
    std::uint64_t work = 0;

    Shrinking(const Core& of, PricedRows priced)
        : core(of), graph(std::move(priced)), needed_by(reversed(graph.rows, graph.rows.size())), search(graph) {
        for (std::uint32_t v = 0; v < graph.rows.size(); ++v) {
            needs_left.push_back(static_cast<std::uint32_t>(graph.rows.of(v).size()));
            needed_left.push_back(static_cast<std::uint32_t>(needed_by.of(v).size()));
        }
        is_start.resize(graph.rows.size(), 0);
        for (std::size_t position = 0; position < graph.price.size(); ++position)
            if (graph.price[position] != 0) is_start[graph.rows.needs[position]] = 1;
    }

    void remove_and_peel(std::uint32_t start) {
        std::vector<std::uint32_t> going{start};
        search.remove(start);
        const auto loosen = [&](std::span<const std::uint32_t> neighbours, std::vector<std::uint32_t>& left) {
            work += neighbours.size();
            for (std::uint32_t u : neighbours) {
                if (--left[u] != 0 || search.is_removed(u)) continue;
                search.remove(u);
                going.push_back(u);
            }
        };
        while (!going.empty()) {
            const std::uint32_t v = going.back();
            going.pop_back();
            loosen(graph.rows.of(v), needed_left);
            loosen(needed_by.of(v), needs_left);
        }
    }
};

PricedRows price_edges(const Graph& graph, const Core& core) {
    PricedRows priced{core.rows, {}, core.edges};
    priced.price.reserve(core.edges.size());
    for (std::uint32_t index : core.edges) {
        const Edge& edge = graph.edges[index];
        const bool counts = core.has_bones ? leaves_a_bone(graph, edge) : graph.vertices[edge.from].kind == VertexKind::property;
        priced.price.push_back(counts ? 1 : 0);
    }
    return priced;
}

std::vector<PathEdge> path_of(const Core& core, const Walk& walk) {
    std::vector<PathEdge> path;
    path.reserve(walk.positions.size());
    for (std::uint32_t position : walk.positions)
        path.push_back({core.vertices[core.rows.needs[position]], none, core.edges[position]});
    for (std::size_t i = 0; i + 1 < path.size(); ++i) path[i].to = path[i + 1].from;
    path.back().to = core.vertices[walk.end];
    return path;
}

}  // namespace

Witness find_witness(const Graph& graph, std::span<const Core> cores) {
    Witness witness;
    std::uint32_t length = none;
    std::uint64_t bound = 10'000'000, work = 0;
    bool any_bones = false;
    for (const Core& core : cores) {
        bound += 64 * core.edges.size();
        any_bones = any_bones || core.has_bones;
    }
    for (const Core& core : cores) {
        if (core.has_bones != any_bones) continue;
        Shrinking shrinking(core, price_edges(graph, core));
        for (std::uint32_t start = 0; start < core.vertices.size() && length > 1; ++start) {
            if (shrinking.search.is_removed(start) || !shrinking.is_start[start]) continue;
            if (length != none && work + shrinking.work + shrinking.search.work() > bound) {
                witness.is_shortest = false;
                return witness;
            }
            const std::uint32_t ends[] = {start};
            const Walk walk = shrinking.search.find(ends, ends, /*starts_by_leaving=*/false, length);
            if (!walk.positions.empty()) {
                length = walk.price;
                witness.edges = path_of(core, walk);
            }
            shrinking.remove_and_peel(start);
        }
        work += shrinking.work + shrinking.search.work();
    }
    return witness;
}

}  // namespace ligament
