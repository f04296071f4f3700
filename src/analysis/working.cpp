#include "working.hpp"

#include <algorithm>

#include "wiring.hpp"

namespace ligament {

WorkSearch::WorkSearch(const Rig& rig, const Dependencies& dependencies, const Rows& needed_by)
    : rig_(rig),
      dependencies_(dependencies),
      needed_by_(needed_by),
      vertices_of_(vertices_of_constraints(dependencies)),
      seen_(needed_by.size()) {}

Work WorkSearch::find(ConstraintId id, const Liveness& liveness) {
    if (liveness.gate_is_off[id + 1]) return Work::off;
    seen_.begin();
    going_.clear();
    const Constraint& constraint = constraint_of(rig_, dependencies_, id);
    for (VertexId v = vertices_of_[id].first; v < vertices_of_[id].end; ++v) {
        const std::uint8_t part = dependencies_.motion.vertices[v].channel;
        if (part != Vertex::whole && !(parts_written(constraint) >> part & 1)) continue;
        seen_.enter(v);
        going_.push_back(v);
    }
    while (!going_.empty()) {
        const VertexId v = going_.back();
        going_.pop_back();
        if (follow(v, liveness)) return Work::done;
    }
    return Work::replaced;
}

/// Goes on from v inside its bone, or from a solver to what it has solved; true
/// where the work has arrived or is read elsewhere.
bool WorkSearch::follow(VertexId v, const Liveness& liveness) {
    const Graph& graph = dependencies_.motion;
    const VertexKind kind = graph.vertices[v].kind;
    if (is_arrival(rig_, dependencies_, v)) return true;
    for (VertexId next : needed_by_.of(v)) {
        if (seen_.has(next)) continue;
        const auto edges = graph.needs(next);
        const bool goes_on = std::any_of(edges.begin(), edges.end(), [&](const Edge& edge) {
            if (edge.from != v || dependencies_.is_inert(edge) || liveness.gate_is_off[edge.gate]) return false;
            return dependencies_.is_weight_edge(edge) || carries_motion(dependencies_, liveness, next, edge);
        });
        if (!goes_on) continue;
        const VertexKind next_kind = graph.vertices[next].kind;  // solved may stand for local as well
        const bool is_solved = kind == VertexKind::solver && (next_kind == VertexKind::solved || next_kind == VertexKind::local);
        if (!is_solved && dependencies_.bone_of(graph, next) != dependencies_.bone_of(graph, v)) return true;
        if (kind == VertexKind::solver && !is_solved) return true;
        seen_.enter(next);
        going_.push_back(next);
    }
    return false;
}

}  // namespace ligament
