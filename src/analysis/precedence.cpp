#include "precedence.hpp"

#include <algorithm>
#include <utility>

namespace ligament {

namespace {

struct Arc {
    std::uint32_t before = 0, after = 0;
};

Precedence sort_arcs(std::uint32_t nodes, const std::vector<Arc>& arcs) {
    Precedence result;
    result.first.assign(nodes + 1, 0);
    for (const Arc& arc : arcs) ++result.first[arc.before + 1];
    for (std::uint32_t n = 0; n < nodes; ++n) result.first[n + 1] += result.first[n];
    std::vector<std::uint32_t> next(result.first.begin(), result.first.end() - 1);
    result.after.resize(arcs.size());
    for (const Arc& arc : arcs) result.after[next[arc.before]++] = arc.after;
    return result;
}

template <class Use>  // (from, to, is inert)
void for_each_edge(const Dependencies& dependencies, Use use) {
    const Graph& graph = dependencies.bone;
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        for (const Edge& edge : graph.needs(v)) use(edge.from, v, dependencies.is_inert(edge));
}

/// Inert edges close no cycle of their own: every edge between two components counts.
Precedence of_one_tier(const Dependencies& dependencies, const Condensation& live) {
    std::vector<Arc> arcs;
    for_each_edge(dependencies, [&](VertexId from, VertexId to, bool) {
        const Arc arc{live.component_of[from], live.component_of[to]};
        if (arc.before != arc.after) arcs.push_back(arc);
    });
    return sort_arcs(live.size(), arcs);
}

/// Where inert edges close cycles, a vertex that is no bone stands for three things: what is needed of it over live edges (its
/// live component); `inside`, what bones of its own component of all edges may wait for, that is bones outside that component;
/// and `outside`, what all others may wait for, every bone that it needs. Loops of properties share their nodes.
struct TwoTiers {
    const Dependencies& dependencies;
    const Condensation& live;
    Condensation all, boneless;
    std::vector<Arc> arcs;

    bool is_bone(VertexId v) const { return v < dependencies.bone.first_property; }
    std::uint32_t inside(VertexId v) const { return live.size() + boneless.component_of[v]; }
    std::uint32_t outside(VertexId v) const { return inside(v) + boneless.size(); }

    void add(VertexId from, VertexId to, bool inert) {
        const std::uint32_t from_live = live.component_of[from], to_live = live.component_of[to];
        if (!inert && from_live != to_live) arcs.push_back({from_live, to_live});
        const bool together = all.component_of[from] == all.component_of[to];
        if (is_bone(to)) {
            if (!is_bone(from)) arcs.push_back({together ? inside(from) : outside(from), to_live});
            if (is_bone(from) && !together) arcs.push_back({from_live, to_live});
        } else if (is_bone(from)) {
            arcs.push_back({from_live, outside(to)});
            if (!together) arcs.push_back({from_live, inside(to)});
        } else if (boneless.component_of[from] != boneless.component_of[to]) {
            arcs.push_back({outside(from), outside(to)});
            arcs.push_back({together ? inside(from) : outside(from), inside(to)});
        }
    }
};

}  // namespace

Precedence find_precedence(const Dependencies& dependencies, const Condensation& live) {
    const Graph& graph = dependencies.bone;
    const bool any_inert =
        std::any_of(graph.edges.begin(), graph.edges.end(), [&](const Edge& edge) { return dependencies.is_inert(edge); });
    if (!any_inert) return of_one_tier(dependencies, live);
    Condensation all = find_components(pick_rows(graph, [](VertexId, const Edge&) { return true; }));
    if (all.size() == live.size()) return of_one_tier(dependencies, live);

    const Rows boneless = pick_rows(
        graph, [&](VertexId v, const Edge& edge) { return v >= graph.first_property && edge.from >= graph.first_property; });
    TwoTiers tiers{dependencies, live, std::move(all), find_components(boneless), {}};
    for_each_edge(dependencies, [&](VertexId from, VertexId to, bool inert) { tiers.add(from, to, inert); });
    return sort_arcs(live.size() + 2 * tiers.boneless.size(), tiers.arcs);
}

}  // namespace ligament
