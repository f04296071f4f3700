#include "igraph_walk.hpp"

#include <igraph/igraph.h>

#include <algorithm>
#include <stdexcept>

namespace ligament::perf {

namespace {

void expect(igraph_error_t error) {
    if (error != IGRAPH_SUCCESS) throw std::runtime_error(igraph_strerror(error));
}

/// A vector that igraph fills.
struct Vector {
    igraph_vector_int_t of{};

    explicit Vector(igraph_integer_t size = 0) { expect(igraph_vector_int_init(&of, size)); }
    Vector(const Vector&) = delete;
    Vector& operator=(const Vector&) = delete;
    ~Vector() { igraph_vector_int_destroy(&of); }

    igraph_integer_t& operator[](std::size_t i) { return VECTOR(of)[i]; }
    std::size_t size() const { return static_cast<std::size_t>(igraph_vector_int_size(&of)); }
};

struct Graph {
    igraph_t of{};

    explicit Graph(const EdgeList& list) {
        Vector ends(static_cast<igraph_integer_t>(2 * list.arcs.size()));
        for (std::size_t i = 0; i < list.arcs.size(); ++i) ends[2 * i] = list.arcs[i].from, ends[2 * i + 1] = list.arcs[i].to;
        expect(igraph_create(&of, &ends.of, list.vertices, /*directed=*/true));
    }
    Graph(const Graph&) = delete;
    Graph& operator=(const Graph&) = delete;
    ~Graph() { igraph_destroy(&of); }
};

/// Makes each component one vertex.
void contract(Graph& graph, Vector& component) {
    expect(igraph_contract_vertices(&graph.of, &component.of, /*vertex_comb=*/nullptr));
    expect(igraph_simplify(&graph.of, /*multiple=*/true, /*loops=*/true, /*edge_comb=*/nullptr));
}

std::uint32_t count_levels(const Graph& graph) {
    Vector order, needs;
    expect(igraph_topological_sorting(&graph.of, &order.of, IGRAPH_OUT));
    std::vector<std::uint32_t> level(order.size(), 1);
    std::uint32_t levels = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const auto v = static_cast<std::size_t>(order[i]);
        expect(igraph_neighbors(&graph.of, &needs.of, order[i], IGRAPH_IN));
        for (std::size_t k = 0; k < needs.size(); ++k)
            level[v] = std::max(level[v], level[static_cast<std::size_t>(needs[k])] + 1);
        levels = std::max(levels, level[v]);
    }
    return levels;
}

std::uint32_t count_unreached(const Graph& graph, const EdgeList& list) {
    Vector starts(static_cast<igraph_integer_t>(list.starts.size())), order;
    for (std::size_t i = 0; i < list.starts.size(); ++i) starts[i] = list.starts[i];
    std::vector<std::uint8_t> seen(list.vertices, 0);
    if (!list.starts.empty())
        expect(igraph_bfs(&graph.of, 0, &starts.of, IGRAPH_OUT, /*unreachable=*/false, nullptr, &order.of, nullptr, nullptr,
                          nullptr, nullptr, nullptr, nullptr, nullptr));
    for (std::size_t i = 0; i < order.size(); ++i)
        if (order[i] >= 0) seen[static_cast<std::size_t>(order[i])] = 1;
    std::uint32_t unreached = 0;
    for (const Arc& range : list.arrivals)
        unreached += std::all_of(seen.begin() + range.from, seen.begin() + range.to, [](auto s) { return s == 0; }) ? 1U : 0U;
    return unreached;
}

}  // namespace

Found walk_by_igraph(const EdgeList& list) {
    Graph graph(list);
    Vector component;
    igraph_integer_t count = 0;
    expect(igraph_connected_components(&graph.of, &component.of, nullptr, &count, IGRAPH_STRONG));
    Found found{.components = static_cast<std::uint32_t>(count)};
    found.unreached = count_unreached(graph, list);
    if (found.components < list.vertices) contract(graph, component);
    found.levels = count_levels(graph);
    return found;
}

}  // namespace ligament::perf
