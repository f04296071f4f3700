#include "dump.hpp"

namespace ligament::testing {

namespace {

std::string dump_edge(const Rig& rig, const Dependencies& dependencies, const Edge& edge, bool with_gate) {
    std::string line = " (" + std::string(name_of(edge.kind())) + " " + name_of(rig, dependencies, edge.maker);
    if (const Gate& gate = dependencies.gates[edge.gate]; with_gate && gate.constraint != none) {
        line += " gated by " + constraint_of(rig, dependencies, gate.constraint).name;
        if (gate.source != none) line += " source " + std::to_string(gate.source);
    }
    return line + (dependencies.is_inert(edge) ? " inert)" : ")");
}

std::string dump(const Rig& rig, Grain grain, std::string_view to, bool with_order, bool with_gate) {
    const Dependencies dependencies = build_dependencies(rig);
    const Graph& graph = dependencies.at(rig, grain);
    std::string text;
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        const std::string name = name_of(rig, dependencies, graph, v);
        if (!name.starts_with(to)) continue;
        for (const Edge& edge : graph.needs(v)) {
            if (edge.kind() == EdgeKind::order && !with_order) continue;
            text += name + " <- " + name_of(rig, dependencies, graph, edge.from);
            text += dump_edge(rig, dependencies, edge, with_gate) + "\n";
        }
    }
    return text;
}

}  // namespace

std::string dump_needs(const Rig& rig, Grain grain, std::string_view to, bool with_order) {
    return dump(rig, grain, to, with_order, false);
}

std::string dump_gates(const Rig& rig, Grain grain, std::string_view to) { return dump(rig, grain, to, false, true); }

}  // namespace ligament::testing
