#include "circuit_graph.hpp"

#include <algorithm>
#include <tuple>

namespace ligament {

namespace {

void list_arcs(const CyclePart& part, CircuitGraph& graph) {
    for (std::uint32_t v = 0; v < part.rows.size(); ++v)
        for (std::uint32_t position = part.rows.first[v]; position < part.rows.first[v + 1]; ++position) {
            const std::uint32_t from = part.rows.needs[position];
            const bool counts = part.graph->vertices[part.vertices[from]].kind == VertexKind::property;
            graph.out.push_back({from, v, part.edges[position], counts ? 1U : 0U});
        }
    const auto maker = [&](const CircuitArc& arc) { return std::uint32_t{part.graph->edges[arc.edge].maker}; };
    std::sort(graph.out.begin(), graph.out.end(), [&](const CircuitArc& a, const CircuitArc& b) {
        return std::tuple(a.from, a.to, maker(a), a.edge) < std::tuple(b.from, b.to, maker(b), b.edge);
    });
    const auto is_same = [&](const CircuitArc& a, const CircuitArc& b) {
        return a.from == b.from && a.to == b.to && maker(a) == maker(b);
    };
    graph.out.erase(std::unique(graph.out.begin(), graph.out.end(), is_same), graph.out.end());
    std::sort(graph.out.begin(), graph.out.end(), [](const CircuitArc& a, const CircuitArc& b) {
        return std::tuple(a.from, a.to, a.edge) < std::tuple(b.from, b.to, b.edge);
    });
}

void index_arcs(std::uint32_t size, CircuitGraph& graph) {
    graph.first_out.assign(size + 1, 0);
    graph.first_in.assign(size + 1, 0);
    for (const CircuitArc& arc : graph.out) ++graph.first_out[arc.from + 1], ++graph.first_in[arc.to + 1];
    for (std::uint32_t v = 0; v < size; ++v) {
        graph.first_out[v + 1] += graph.first_out[v];
        graph.first_in[v + 1] += graph.first_in[v];
    }
    std::vector<std::uint32_t> next(graph.first_in.begin(), graph.first_in.end() - 1);
    graph.in.resize(graph.out.size());
    for (std::uint32_t a = 0; a < graph.out.size(); ++a) graph.in[next[graph.out[a].to]++] = a;
}

/// Takes away a root after its turn, and then, again and again, whatever needs nothing or is needed by nothing that is left.
struct Peeling {
    CircuitGraph& graph;
    std::vector<std::uint32_t> ins, outs, going;
    std::uint32_t turn = 0;

    explicit Peeling(CircuitGraph& of) : graph(of) {
        for (std::uint32_t v = 0; v < graph.size(); ++v) {
            ins.push_back(graph.first_in[v + 1] - graph.first_in[v]);
            outs.push_back(graph.first_out[v + 1] - graph.first_out[v]);
        }
        graph.turns.assign(graph.size(), none);
    }
    bool is_left(std::uint32_t v) const { return graph.turns[v] == none; }
    void remove(std::uint32_t v) {
        if (!is_left(v)) return;
        graph.turns[v] = turn;
        going.push_back(v);
    }
    void remove_and_peel(std::uint32_t start) {
        remove(start);
        while (!going.empty()) {
            const std::uint32_t v = going.back();
            going.pop_back();
            for (const CircuitArc& arc : graph.from(v))
                if (--ins[arc.to] == 0) remove(arc.to);
            for (std::uint32_t a : graph.to(v))
                if (--outs[graph.out[a].from] == 0) remove(graph.out[a].from);
        }
    }
    void run() {
        for (std::uint32_t v = 0; v < graph.size(); ++v)
            if (ins[v] == 0 || outs[v] == 0) remove_and_peel(v);
        for (std::uint32_t v = 0; v < graph.size(); ++v) {
            if (!is_left(v)) continue;
            graph.roots.push_back(v);
            ++turn;
            remove_and_peel(v);
        }
    }
};

}  // namespace

CircuitGraph build_circuit_graph(const CyclePart& part) {
    CircuitGraph graph;
    list_arcs(part, graph);
    index_arcs(part.rows.size(), graph);
    for (VertexId v : part.vertices) graph.bones += v < part.graph->first_property ? 1U : 0U;
    Peeling(graph).run();
    return graph;
}

}  // namespace ligament
