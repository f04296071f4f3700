#include "state_gates.hpp"

#include <algorithm>
#include <utility>

namespace ligament {

namespace {

bool has_driven_weight(const Constraint& constraint) {
    return constraint.weight.is_driven() || std::any_of(constraint.sources.begin(), constraint.sources.end(),
                                                        [](const Source& source) { return source.weight.is_driven(); });
}

/// (row, value) pairs as rows, each in the order of the pairs. Linear.
Rows rows_of(std::uint32_t size, const std::vector<std::pair<std::uint32_t, std::uint32_t>>& pairs) {
    Rows rows;
    rows.first.assign(size + 1, 0);
    rows.needs.resize(pairs.size());
    for (const auto& [row, value] : pairs) ++rows.first[row + 1];
    for (std::uint32_t row = 0; row < size; ++row) rows.first[row + 1] += rows.first[row];
    std::vector<std::uint32_t> next(rows.first.begin(), rows.first.end() - 1);
    for (const auto& [row, value] : pairs) rows.needs[next[row]++] = value;
    return rows;
}

/// Whether a gate may lead into the vertex.
bool may_be_gated(VertexKind kind) {
    return kind == VertexKind::constraint || kind == VertexKind::solver || kind == VertexKind::solved ||
           kind == VertexKind::local;
}

}  // namespace

StateGates find_state_gates(const Rig& rig, const Dependencies& dependencies) {
    const Graph& graph = dependencies.motion;
    const auto constraints = static_cast<std::uint32_t>(dependencies.constraints.size());
    std::vector<std::pair<std::uint32_t, std::uint32_t>> gates, targets;
    std::vector<std::uint8_t> is_driven;
    for (ConstraintId id = 0; id < constraints; ++id)
        is_driven.push_back(has_driven_weight(constraint_of(rig, dependencies, id)) ? 1 : 0);
    for (std::uint32_t g = 0; g < dependencies.gates.size(); ++g)
        if (const ConstraintId id = dependencies.gates[g].constraint; id != none && is_driven[id]) gates.emplace_back(id, g);
    std::vector<VertexId> last(constraints, none);  // by constraint: the last vertex noted
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        const Vertex& vertex = graph.vertices[v];
        if (!may_be_gated(vertex.kind)) continue;
        const auto note = [&](ConstraintId id) {
            if (id == none || !is_driven[id] || last[id] == v) return;
            last[id] = v;
            targets.emplace_back(id, v);
        };
        if (vertex.kind == VertexKind::constraint) note(vertex.element);
        for (const Edge& edge : graph.needs(v)) note(dependencies.gates[edge.gate].constraint);
    }
    return {rows_of(constraints, gates), rows_of(constraints, targets)};
}

}  // namespace ligament
