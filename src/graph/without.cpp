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

Dependencies dependencies_without(const Dependencies& dependencies, std::span<const MakerId> makers) {
    std::vector<std::uint8_t> is_out(dependencies.makers.size(), 0);
    for (MakerId maker : makers) is_out[maker] = 1;
    Dependencies result = dependencies;
    for (Gate& gate : result.gates)
        if (gate.constraint != none && is_out[maker_of(dependencies, gate.constraint)]) gate.off = true;
    const auto off = static_cast<std::uint32_t>(result.gates.size());
    result.gates.push_back({.off = true});
    for (Graph* graph : {&result.bone, &result.step, &result.channel})
        for (Edge& edge : graph->edges) {
            const Removers removers = removers_of(dependencies, edge);
            if (is_out[removers.maker] || (removers.constraint != none && is_out[removers.constraint])) edge.gate = off;
        }
    return result;
}

}  // namespace ligament
