// Along which edges does motion travel in a state, where does it start and where does it arrive?
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "ligament/facts.hpp"
#include "rows.hpp"
#include "sweep.hpp"

namespace ligament {

/// What a state makes of the weights: which edges of the motion graph are dead in it.
struct Liveness {
    std::vector<std::uint8_t> gate_is_off;  ///< by gate: inert, or a weight that is 0
    std::vector<Parts> replaced;            ///< by constraint: the parts of which its step throws the earlier value away
};

Liveness find_liveness(const Rig& rig, const Dependencies& dependencies, const Evaluation& evaluation);

/// Whether a gate is off where driven values come to `evaluation`.
bool is_off(const Rig& rig, const Dependencies& dependencies, const Gate& gate, const Evaluation& evaluation);

/// The parts of which a constraint's step throws the earlier value away where driven values come to `evaluation`.
Parts replaced_by(const Rig& rig, const Dependencies& dependencies, ConstraintId id, const Evaluation& evaluation);

/// Whether motion travels along the edge into a vertex of the motion graph or the channel grain: not through a weight, not where
/// a weight is 0, and not into a step that throws the earlier value away. Here because it is asked of every edge many times.
inline bool carries_motion(const Dependencies& dependencies, const Liveness& liveness, const Vertex& to, const Edge& edge) {
    if (liveness.gate_is_off[edge.gate]) return false;
    if (edge.kind() == EdgeKind::driver) return !dependencies.is_weight_edge(edge);
    if (edge.kind() != EdgeKind::order || edge.gate != 0) return true;
    return to.kind != VertexKind::constraint || !(static_cast<unsigned>(liveness.replaced[to.element]) >> to.channel & 1u);
}

/// Likewise, into vertex v of the motion graph.
inline bool carries_motion(const Dependencies& dependencies, const Liveness& liveness, VertexId v, const Edge& edge) {
    return carries_motion(dependencies, liveness, dependencies.motion.vertices[v], edge);
}

/// The vertices in which what moves a bone arrives: its final and, where it has one, its curve.
struct Arrivals {
    VertexId first = 0, end = 0;
};

Arrivals arrivals_of(const Rig& rig, const Graph& graph, BoneId bone);

/// Whether motion arrives in v (motion graph). Its kind does not tell: a final may be the bone's last constraint as well.
inline bool is_arrival(const Rig& rig, const Dependencies& dependencies, VertexId v) {
    const BoneId bone = dependencies.bone_of(dependencies.motion, v);
    return bone != none && v >= arrivals_of(rig, dependencies.motion, bone).first;
}

struct VertexRange {
    VertexId first = 0, end = 0;
};

/// By constraint: the vertices that it runs in, its step's or the solver (motion graph).
std::vector<VertexRange> vertices_of_constraints(const Dependencies& dependencies);

/// The motion graph over all edges that are not inert.
struct LiveMotion {
    Rows needed_by;  ///< who needs a vertex
    Sweep order;
};

/// In up to so many threads.
LiveMotion find_live_motion(const Dependencies& dependencies, unsigned workers = 1);

/// The motion graph in one state, cut down to what carries motion, with what motion starts from.
struct Motion {
    Rows rows;
    Sweep order;                             ///< of the rows
    std::vector<BoneId> controls;            ///< in file order
    std::vector<std::uint32_t> first_start;  ///< size controls + 1
    std::vector<VertexId> starts;            ///< of controls[i]: its pose and the undriven properties on it

    std::span<const VertexId> starts_of(std::size_t control) const {
        return {starts.data() + first_start[control], starts.data() + first_start[control + 1]};
    }
};

Motion find_motion(const Rig& rig, const Dependencies& dependencies, const Liveness& liveness);

}  // namespace ligament
