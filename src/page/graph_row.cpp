// How do the edges that a page follows get into it?
#include "page_rows.hpp"

namespace ligament::page_rows {

namespace {

struct Columns {
    std::vector<std::int64_t> vertices_of_bone, needs, kinds, steps;  // by bone; by vertex; by vertex; three a step
    std::vector<std::int64_t> from, makers, gates, edge_kinds;        // by edge
};

Columns columns_of(const Rig& rig, const Graph& graph) {
    Columns columns;
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        columns.vertices_of_bone.push_back(graph.first_of_bone[b + 1] - graph.first_of_bone[b]);
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        const Vertex& vertex = graph.vertices[v];
        columns.kinds.push_back(static_cast<std::int64_t>(vertex.kind));
        columns.needs.push_back(static_cast<std::int64_t>(graph.needs(v).size()));
        if (vertex.kind == VertexKind::constraint) {
            columns.steps.push_back(v);
            columns.steps.push_back(vertex.element);
            columns.steps.push_back(vertex.channel == Vertex::whole ? -1 : vertex.channel);
        }
        for (const Edge& edge : graph.needs(v)) {
            columns.from.push_back(static_cast<std::int64_t>(v) - static_cast<std::int64_t>(edge.from));
            columns.makers.push_back(edge.maker);
            columns.gates.push_back(edge.gate);
            columns.edge_kinds.push_back(static_cast<std::int64_t>(edge.kind()));
        }
    }
    return columns;
}

/// Makers stand one behind the other kind by kind, so that the steps from one element to the next are nearly all 1.
Row makers_row(const Dependencies& dependencies) {
    std::vector<std::int64_t> kinds, steps;
    std::int64_t before = 0;
    for (const Maker& maker : dependencies.makers) {
        kinds.push_back(static_cast<std::int64_t>(maker.kind));
        steps.push_back(id_or_none(maker.element) - before);
        before = id_or_none(maker.element);
    }
    return {{"kind", runs(kinds)}, {"step", runs(steps)}};
}

Row gates_row(const Dependencies& dependencies) {
    Row rows = Row::array();
    for (const Gate& gate : dependencies.gates)
        rows.push_back(Row::array({id_or_none(gate.constraint), id_or_none(gate.source), gate.inert ? 1 : 0}));
    return rows;
}

}  // namespace

Row graph_row(const Rig& rig, const Dependencies& dependencies) {
    const Graph& graph =
        dependencies.at(rig, dependencies.size_at(Grain::channel).edges > page_edges_limit ? Grain::bone : Grain::channel);
    const Columns columns = columns_of(rig, graph);
    return {{"grain", name_of(graph.grain)},
            {"vertices", graph.vertices.size()},
            {"first", Row::array({graph.first_property, graph.first_driver, graph.first_object, graph.first_solver})},
            {"bones", runs(columns.vertices_of_bone)},
            {"kinds", runs(columns.kinds)},
            {"steps", columns.steps},
            {"needs", runs(columns.needs)},
            {"from", runs(columns.from)},
            {"makers_of", runs(columns.makers)},
            {"gates_of", runs(columns.gates)},
            {"kinds_of", runs(columns.edge_kinds)},
            {"makers", makers_row(dependencies)},
            {"gates", gates_row(dependencies)}};
}

}  // namespace ligament::page_rows
