#include "cycle_states.hpp"

#include <algorithm>
#include <array>

#include "components.hpp"
#include "cycle_graphs.hpp"
#include "sweep.hpp"

namespace ligament {

CycleStates::CycleStates(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles) {
    if (cycles.empty()) return;
    const Rows rows = live_rows(dependencies, dependencies.bone);
    const Condensation components = find_components(rows);
    CycleGraphs graphs(rig, dependencies, rows, components);
    std::array<std::vector<std::uint32_t>, 3> numbers;  // by grain and vertex: place in the part at hand, else none
    for (std::uint32_t c = 0; c < cycles.size(); ++c) {
        const Cycle& cycle = cycles[c];
        const Graph& graph = graphs.at(cycle.grain);
        const VertexId member =
            cycle.bones.empty() ? dependencies.bone.first_property + cycle.properties.front() : cycle.bones.front();
        const std::vector<VertexId> vertices = vertices_at(dependencies, graph, components.of(components.component_of[member]));
        std::vector<std::uint32_t>& number = numbers[static_cast<std::size_t>(cycle.grain)];
        number.resize(graph.vertices.size(), none);
        for (std::uint32_t i = 0; i < vertices.size(); ++i) number[vertices[i]] = i;
        Part& part = parts_.emplace_back();
        for (VertexId v : vertices) {
            for (const Edge& edge : graph.needs(v)) {
                if (number[edge.from] == none || dependencies.is_inert(edge)) continue;
                part.rows.needs.push_back(number[edge.from]);
                part.gates.push_back(edge.gate);
                const ConstraintId gating = dependencies.gates[edge.gate].constraint;
                if (gating != none) gated_.emplace_back(gating, c);
            }
            part.rows.first.push_back(static_cast<std::uint32_t>(part.rows.needs.size()));
        }
        for (VertexId v : vertices) number[v] = none;
    }
    std::sort(gated_.begin(), gated_.end());
    gated_.erase(std::unique(gated_.begin(), gated_.end()), gated_.end());
}

std::vector<std::uint32_t> CycleStates::gated_by(std::span<const ConstraintId> constraints) const {
    std::vector<std::uint32_t> cycles;
    for (ConstraintId id : constraints)
        for (auto at = std::lower_bound(gated_.begin(), gated_.end(), std::pair{id, std::uint32_t{0}});
             at != gated_.end() && at->first == id; ++at)
            cycles.push_back(at->second);
    std::sort(cycles.begin(), cycles.end());
    cycles.erase(std::unique(cycles.begin(), cycles.end()), cycles.end());
    return cycles;
}

bool CycleStates::is_left(std::uint32_t cycle, const std::vector<std::uint8_t>& gate_is_off) const {
    const Part& part = parts_[cycle];
    Rows left;
    for (std::uint32_t v = 0; v < part.rows.size(); ++v) {
        for (std::uint32_t i = part.rows.first[v]; i < part.rows.first[v + 1]; ++i)
            if (!gate_is_off[part.gates[i]]) left.needs.push_back(part.rows.needs[i]);
        left.first.push_back(static_cast<std::uint32_t>(left.needs.size()));
    }
    const Condensation components = find_components(left);
    for (std::uint32_t c = 0; c < components.size(); ++c)
        if (has_cycle(left, components, c)) return true;
    return false;
}

}  // namespace ligament
