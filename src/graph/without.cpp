// What is left when makers are taken out? The same graphs with their edges switched off.
#include "ligament/graph.hpp"

namespace ligament {

// Constraints' and solvers' makers stand in the order of the constraints, right before those of the drivers.
MakerId maker_of(const Dependencies& dependencies, ConstraintId constraint) {
    const std::size_t before_drivers = dependencies.makers.size() - dependencies.driver_uses.size();
    return static_cast<MakerId>(before_drivers - dependencies.constraints.size() + constraint);
}

Removers removers_of(const Dependencies& dependencies, const Edge& edge) {
    Removers removers{edge.maker, none};
    const ConstraintId gated_by = dependencies.gates[edge.gate].constraint;
    if (gated_by != none && maker_of(dependencies, gated_by) != edge.maker)
        removers.constraint = maker_of(dependencies, gated_by);
    return removers;
}

EdgeKind edge_kind_of(Maker::Kind kind) {
    switch (kind) {
        case Maker::Kind::stack:
            return EdgeKind::order;
        case Maker::Kind::parent_link:
        case Maker::Kind::follows:
            return EdgeKind::parent;
        case Maker::Kind::solver:
            return EdgeKind::solver;
        case Maker::Kind::constraint:
            return EdgeKind::constraint;
        case Maker::Kind::curve_handles:
            return EdgeKind::curve;
        case Maker::Kind::driver:
            return EdgeKind::driver;
    }
    return EdgeKind::order;
}

namespace {

/// What goes with the makers that are taken out.
struct Out {
    std::vector<std::uint8_t> makers, gates;  ///< by maker, by gate
    std::uint32_t off = 0;                    ///< the gate that stands for it

    void switch_off(Edge& edge) const {
        if (makers[edge.maker] || gates[edge.gate]) edge.gate = off;
    }
};

LateGraph switched_off(const LateGraph& graph, const Out& out) {
    return LateGraph([graph, out](const Rig& rig, const Dependencies& with, std::span<const std::uint8_t> marked) {
        Graph left = marked.empty() ? graph.whole(rig, with) : graph.part(rig, with, marked);
        for (Edge& edge : left.edges) out.switch_off(edge);
        return left;
    });
}

}  // namespace

Dependencies dependencies_without(const Dependencies& dependencies, std::span<const MakerId> makers) {
    Dependencies result = dependencies;
    Out out{std::vector<std::uint8_t>(dependencies.makers.size(), 0), {}, static_cast<std::uint32_t>(result.gates.size())};
    for (MakerId maker : makers) out.makers[maker] = 1;
    for (Gate& gate : result.gates) {
        out.gates.push_back(gate.constraint != none ? out.makers[maker_of(dependencies, gate.constraint)] : std::uint8_t{0});
        gate.off = gate.off || out.gates.back() != 0;
    }
    result.gates.push_back({.off = true});
    for (Graph* graph : {&result.bone, &result.motion})
        for (Edge& edge : graph->edges) out.switch_off(edge);
    for (EdgeInto& into : result.step_only) out.switch_off(into.edge);
    result.step = switched_off(dependencies.step, out);
    result.channel = switched_off(dependencies.channel, out);
    return result;
}

}  // namespace ligament
