#include "our_walk.hpp"

#include <algorithm>
#include <utility>

#include "attachment.hpp"
#include "components.hpp"
#include "marks.hpp"
#include "motion.hpp"

namespace ligament::perf {

EdgeList edge_list_of(const Rig& rig, const Dependencies& dependencies, Grain grain) {
    const Graph& graph = dependencies.at(rig, grain);
    EdgeList list;
    list.vertices = static_cast<std::uint32_t>(graph.vertices.size());
    list.arcs.reserve(graph.edges.size());
    for (VertexId v = 0; v < list.vertices; ++v)
        for (const Edge& edge : graph.needs(v))
            if (!dependencies.is_inert(edge)) list.arcs.push_back({edge.from, v});
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        const VertexId first = graph.first_of_bone[b], end = graph.first_of_bone[b + 1];
        const auto is = [&](VertexId v, VertexKind kind) {
            return graph.vertices[v].kind == kind || graph.vertices[v].kind == VertexKind::bone;
        };
        for (VertexId v = first; v < end && rig.bones[b].control; ++v)
            if (is(v, VertexKind::pose)) list.starts.push_back(v);
        VertexId arrival = first;  // what comes last in a bone: its final, and its curve
        while (!is(arrival, VertexKind::final)) ++arrival;
        if (rig.bones[b].deform) list.arrivals.push_back({arrival, end});
    }
    return list;
}

namespace {

Rows rows_of(const EdgeList& list) {
    Rows rows;
    rows.first.assign(list.vertices + 1, 0);
    rows.needs.reserve(list.arcs.size());
    for (const Arc& arc : list.arcs) {
        ++rows.first[arc.to + 1];
        rows.needs.push_back(arc.from);
    }
    for (std::uint32_t v = 0; v < list.vertices; ++v) rows.first[v + 1] += rows.first[v];
    return rows;
}

std::uint32_t count_levels(const Rows& rows, const Condensation& components) {
    std::vector<std::uint32_t> level(components.size(), 0);
    std::uint32_t levels = 0;
    for (std::uint32_t c = 0; c < components.size(); ++c) {
        for (const std::uint32_t v : components.of(c))
            for (const std::uint32_t from : rows.of(v)) level[c] = std::max(level[c], level[components.component_of[from]]);
        levels = std::max(levels, ++level[c]);
    }
    return levels;
}

}  // namespace

Found walk_by_ours(const EdgeList& list) {
    const Rows rows = rows_of(list);
    Condensation components = find_components(rows);
    Found found{.components = components.size(), .levels = count_levels(rows, components)};
    const Sweep order{.members = std::move(components.members), .first = std::move(components.first)};
    std::vector<std::uint8_t> marks(list.vertices, 0);
    for (const std::uint32_t start : list.starts) marks[start] = 1;
    spread_marks(rows, order, marks);
    for (const Arc& range : list.arrivals)
        found.unreached +=
            std::all_of(marks.begin() + range.from, marks.begin() + range.to, [](auto m) { return m == 0; }) ? 1U : 0U;
    return found;
}

IndexBytes index_bytes(const Rig& rig, const Dependencies& dependencies, Grain grain) {
    const Graph& graph = dependencies.at(rig, grain);
    const auto edges = static_cast<double>(graph.edges.size());
    const std::size_t index = graph.rows.capacity() * sizeof graph.rows[0] + graph.edges.capacity() * sizeof(Edge);
    const std::size_t vertices = graph.vertices.capacity() * sizeof(Vertex) + graph.first_of_bone.capacity() * sizeof(VertexId);
    return {static_cast<double>(index) / edges, static_cast<double>(index + vertices) / edges};
}

std::size_t judge_default_state(const Rig& rig, const Dependencies& dependencies) {
    const Liveness liveness = find_liveness(rig, dependencies, evaluate(rig, dependencies, default_state(rig)));
    return find_attachment(rig, dependencies, liveness, /*list_them=*/false).deform.size();
}

}  // namespace ligament::perf
