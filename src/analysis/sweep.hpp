// In which order can the motion graph be worked off? Taken over from the bone grain, which is a fourth of its size.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "components.hpp"
#include "ligament/graph.hpp"

namespace ligament {

/// Every vertex in exactly one group; a group comes after all that it needs. Groups of several vertices need each other.
struct Sweep {
    std::vector<std::uint32_t> members;  ///< of group g: [first[g], first[g + 1])
    std::vector<std::uint32_t> first;    ///< size groups + 1; empty where every group has one member, as in most rigs

    std::uint32_t size() const { return static_cast<std::uint32_t>(first.empty() ? members.size() : first.size() - 1); }
    std::span<const std::uint32_t> of(std::uint32_t g) const {
        if (first.empty()) return {members.data() + g, 1};
        return {members.data() + first[g], members.data() + first[g + 1]};
    }
};

/// The vertices at a grain, ascending, that a cycle within a bone-grain component may pass. Beside those of the component's own
/// bones these are poses that its drivers drive: a solver reads the poses of its chain, while at bone grain such a driver leads
/// straight to the solver and the chain bone need not be in the component.
std::vector<VertexId> vertices_at(const Dependencies& dependencies, const Graph& graph, std::span<const VertexId> at_bone_grain);

/// `rows` are rows of the motion graph with no inert edge in them. Bones come in the order of the bone grain, each with its
/// vertices in the order of their numbers, which is that of its stack. Since solvers read poses before the bone's turn, free
/// poses come first and driven ones right after their drivers. Only where the bone grain has a cycle is the motion graph
/// searched for components.
Sweep find_sweep(const Dependencies& dependencies, const Rows& rows);

}  // namespace ligament
