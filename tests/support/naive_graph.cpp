#include "naive_graph.hpp"

namespace ligament::testing {

Digraph::Digraph(unsigned size, const Arcs& arcs) : Digraph(size) {
    for (const auto& [from, to] : arcs) arc[from][to] = true;
}

Arcs Digraph::arcs() const {
    Arcs result;
    for (unsigned u = 0; u < size(); ++u)
        for (unsigned v = 0; v < size(); ++v)
            if (arc[u][v]) result.emplace_back(u, v);
    return result;
}

std::uint64_t count_digraphs(unsigned size, bool with_loops) {
    return std::uint64_t{1} << (with_loops ? size * size : size * (size - 1));
}

Digraph nth_digraph(unsigned size, bool with_loops, std::uint64_t number) {
    Digraph graph(size);
    for (unsigned u = 0; u < size; ++u)
        for (unsigned v = 0; v < size; ++v) {
            if (u == v && !with_loops) continue;
            graph.arc[u][v] = number & 1u;
            number >>= 1u;
        }
    return graph;
}

std::vector<std::vector<char>> naive_reach(const Digraph& graph) {
    std::vector<std::vector<char>> reach = graph.arc;
    for (unsigned k = 0; k < graph.size(); ++k)
        for (unsigned u = 0; u < graph.size(); ++u)
            for (unsigned v = 0; v < graph.size(); ++v)
                if (reach[u][k] && reach[k][v]) reach[u][v] = true;
    return reach;
}

std::vector<unsigned> naive_components(const Digraph& graph) {
    const std::vector<std::vector<char>> reach = naive_reach(graph);
    std::vector<unsigned> first(graph.size());
    for (unsigned v = 0; v < graph.size(); ++v)
        for (unsigned u = 0; u <= v; ++u)
            if (u == v || (reach[u][v] && reach[v][u])) {
                first[v] = u;
                break;
            }
    return first;
}

unsigned naive_shortest_cycle(const Digraph& graph, unsigned v) {
    std::vector<bool> at(graph.size(), false);
    at[v] = true;
    for (unsigned length = 1; length <= graph.size(); ++length) {
        std::vector<bool> next(graph.size(), false);
        for (unsigned u = 0; u < graph.size(); ++u)
            for (unsigned w = 0; w < graph.size(); ++w)
                if (at[u] && graph.arc[u][w]) next[w] = true;
        if (next[v]) return length;
        at = next;
    }
    return 0;
}

}  // namespace ligament::testing
