#include "digraph_rig.hpp"

namespace ligament::testing {

Rig rig_of(const Digraph& graph) {
    Rig rig = plain_rig(graph.size(), 0);
    for (const auto& [from, to] : graph.arcs()) {
        Constraint constraint;
        constraint.name = "from_" + std::to_string(from);
        Source source;
        source.bone = from;
        constraint.sources.push_back(source);
        rig.bones[to].constraints.push_back(constraint);
    }
    return rig;
}

Rig plain_rig(unsigned bones, unsigned properties) {
    Rig rig;
    rig.name = "plain";
    for (unsigned b = 0; b < bones; ++b) {
        Bone bone;
        bone.name = "b" + std::to_string(b);
        rig.bones.push_back(bone);
    }
    for (unsigned p = 0; p < properties; ++p) {
        Property property;
        property.name = "p" + std::to_string(p);
        rig.properties.push_back(property);
    }
    return rig;
}

Dependencies dependencies_of(unsigned size, unsigned bones, const std::vector<HandEdge>& edges) {
    Dependencies dependencies;
    dependencies.gates = {{}, {none, none, true}};
    Graph& graph = dependencies.bone;
    for (unsigned v = 0; v < size; ++v) {
        graph.vertices.push_back(v < bones ? Vertex{v, VertexKind::bone} : Vertex{v - bones, VertexKind::property});
        graph.rows.push_back(static_cast<std::uint32_t>(graph.edges.size()));
        for (std::size_t i = 0; i < edges.size(); ++i) {
            if (edges[i].to != v) continue;
            Edge edge;
            edge.from = edges[i].from;
            edge.gate = edges[i].inert ? 1 : 0;
            edge.maker = static_cast<std::uint32_t>(i) & 0x1fff'ffffu;
            edge.kind_bits = static_cast<std::uint32_t>(EdgeKind::constraint);
            graph.edges.push_back(edge);
        }
    }
    graph.rows.push_back(static_cast<std::uint32_t>(graph.edges.size()));
    for (unsigned b = 0; b <= bones; ++b) graph.first_of_bone.push_back(b);
    graph.first_property = bones;
    graph.first_driver = graph.first_object = graph.first_solver = size;
    dependencies.makers.resize(edges.size());
    Graph finer = graph;
    finer.grain = Grain::step;
    dependencies.step = LateGraph(finer);
    finer.grain = Grain::channel;
    dependencies.motion = finer;
    dependencies.channel = LateGraph(std::move(finer));
    return dependencies;
}

}  // namespace ligament::testing
