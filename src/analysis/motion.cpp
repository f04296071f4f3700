#include "motion.hpp"

#include <array>
#include <cmath>
#include <functional>

#include "side_by_side.hpp"

namespace ligament {

namespace {

/// The parts that a kind replaces wholly when all its axes are on; nothing for the kinds that only bend what is there.
Parts whole_parts(const Constraint& constraint) {
    switch (constraint.kind) {
        case ConstraintKind::transform: {
            Parts parts = 0;
            if ((constraint.channels & position_channels) == position_channels) parts |= position_part;
            if ((constraint.channels & rotation_channels) == rotation_channels) parts |= rotation_part;
            if ((constraint.channels & scale_channels) == scale_channels) parts |= scale_part;
            return parts;
        }
        case ConstraintKind::position:
            return position_part;
        case ConstraintKind::rotation:
            return rotation_part;
        case ConstraintKind::scale:
            return scale_part;
        case ConstraintKind::space:
            return all_parts;
        case ConstraintKind::surface:
            return constraint.align ? position_part | rotation_part : position_part;
        default:
            return 0;
    }
}

}  // namespace

Parts replaced_by(const Rig& rig, const Dependencies& dependencies, ConstraintId id, const Evaluation& evaluation) {
    if (dependencies.gates[id + 1].off) return 0;
    const Constraint& constraint = constraint_of(rig, dependencies, id);
    const Parts parts = whole_parts(constraint);
    if (parts == 0 || constraint.is_inert() || constraint.additive || constraint.axes != 0b111) return 0;
    if (weight_in(evaluation, constraint.weight) != 1.0) return 0;
    double sum = 0.0;
    for (const Source& source : constraint.sources)
        if (source.use == Source::Use::from) sum += weight_in(evaluation, source.weight);
    return std::abs(sum - 1.0) <= 1e-9 ? parts : Parts{0};  // an unknown weight makes the sum unknown
}

bool is_off(const Rig& rig, const Dependencies& dependencies, const Gate& gate, const Evaluation& evaluation) {
    if (gate.inert || gate.off) return true;
    if (gate.constraint == none) return false;
    const Constraint& constraint = constraint_of(rig, dependencies, gate.constraint);
    return weight_in(evaluation, constraint.weight) == 0.0 ||
           (gate.source != none && weight_in(evaluation, constraint.sources[gate.source].weight) == 0.0);
}

Liveness find_liveness(const Rig& rig, const Dependencies& dependencies, const Evaluation& evaluation) {
    Liveness liveness;
    liveness.gate_is_off.reserve(dependencies.gates.size());
    for (const Gate& gate : dependencies.gates)
        liveness.gate_is_off.push_back(is_off(rig, dependencies, gate, evaluation) ? 1 : 0);
    liveness.replaced.reserve(dependencies.constraints.size());
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id)
        liveness.replaced.push_back(replaced_by(rig, dependencies, id, evaluation));
    return liveness;
}

Arrivals arrivals_of(const Rig& rig, const Graph& graph, BoneId bone) {
    const VertexId end = graph.first_of_bone[bone + 1];
    return {end - (rig.bones[bone].curve ? 4 : 3), end};
}

std::vector<VertexRange> vertices_of_constraints(const Dependencies& dependencies) {
    std::vector<VertexRange> home(dependencies.constraints.size());
    const std::vector<Vertex>& vertices = dependencies.motion.vertices;
    for (VertexId v = 0; v < vertices.size(); ++v) {
        if (vertices[v].kind != VertexKind::constraint && vertices[v].kind != VertexKind::solver) continue;
        VertexRange& range = home[vertices[v].element];
        if (range.end == 0) range.first = v;
        range.end = v + 1;
    }
    return home;
}

LiveMotion find_live_motion(const Dependencies& dependencies, unsigned workers) {
    const Rows needs = live_rows(dependencies, dependencies.motion);
    LiveMotion live;
    const std::array<std::function<void()>, 2> works{[&] { live.order = find_sweep(dependencies, needs); },
                                                     [&] { live.needed_by = reversed(needs, needs.size()); }};
    do_side_by_side(works, workers);
    return live;
}

Motion find_motion(const Rig& rig, const Dependencies& dependencies, const Liveness& liveness) {
    const Graph& graph = dependencies.motion;
    Motion motion;
    motion.rows = pick_rows(graph, [&](VertexId v, const Edge& edge) { return carries_motion(dependencies, liveness, v, edge); });
    motion.order = find_sweep(dependencies, motion.rows);

    std::vector<std::vector<PropertyId>> properties(rig.bones.size());
    for (PropertyId p = 0; p < rig.properties.size(); ++p)
        if (rig.properties[p].on != none && !rig.properties[p].is_driven()) properties[rig.properties[p].on].push_back(p);
    motion.first_start.push_back(0);
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        if (!rig.bones[b].control) continue;
        motion.controls.push_back(b);
        for (VertexId i = 0; i < pose_count(graph, b); ++i) motion.starts.push_back(graph.first_of_bone[b] + i);
        for (PropertyId p : properties[b]) motion.starts.push_back(graph.first_property + p);
        motion.first_start.push_back(static_cast<std::uint32_t>(motion.starts.size()));
    }
    return motion;
}

}  // namespace ligament
