// What is left of the dependencies in a state? The same graphs with what is dead there switched off.
#include "ligament/states.hpp"
#include "motion.hpp"
#include "working.hpp"

namespace ligament {

namespace {

/// Whether a step throws away the earlier value of what this vertex, of step or channel grain, holds.
bool is_replaced(const Liveness& liveness, const Vertex& vertex) {
    if (vertex.kind != VertexKind::constraint) return false;
    const Parts replaced = liveness.replaced[vertex.element];
    return vertex.channel == Vertex::whole ? replaced == all_parts : (replaced >> vertex.channel & 1) != 0;
}

void switch_replaced_off(const Liveness& liveness, std::uint32_t off, Graph& graph) {
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        if (!is_replaced(liveness, graph.vertices[v])) continue;
        for (std::uint32_t e = graph.rows[v]; e < graph.rows[v + 1]; ++e)
            if (graph.edges[e].kind() == EdgeKind::order && graph.edges[e].gate == 0) graph.edges[e].gate = off;
    }
}

LateGraph without_replaced(const LateGraph& graph, const Liveness& liveness, std::uint32_t off) {
    return LateGraph([graph, liveness, off](const Rig& rig, const Dependencies& with, std::span<const std::uint8_t> marked) {
        Graph left = marked.empty() ? graph.whole(rig, with) : graph.part(rig, with, marked);
        switch_replaced_off(liveness, off, left);
        return left;
    });
}

}  // namespace

Dependencies dependencies_in(const Rig& rig, const Dependencies& dependencies, const State& state, bool overrides) {
    const Liveness liveness = find_liveness(rig, dependencies, evaluate(rig, dependencies, state));
    Dependencies result = dependencies;
    for (std::size_t g = 0; g < result.gates.size(); ++g) result.gates[g].off = liveness.gate_is_off[g] && !result.gates[g].inert;
    if (!overrides) return result;
    const Rows needs = live_rows(dependencies, dependencies.motion);
    const Rows needed_by = reversed(needs, needs.size());
    WorkSearch work(rig, dependencies, needed_by);
    for (Gate& gate : result.gates)
        if (gate.constraint != none && !gate.inert && work.find(gate.constraint, liveness) != Work::done) gate.off = true;
    const auto off = static_cast<std::uint32_t>(result.gates.size());
    result.gates.push_back({.off = true});
    switch_replaced_off(liveness, off, result.motion);
    result.step = without_replaced(dependencies.step, liveness, off);
    result.channel = without_replaced(dependencies.channel, liveness, off);
    return result;
}

}  // namespace ligament
