// Along which arcs do circuits run? A cycle's component as arcs, with the vertices from which each circuit may start.
#pragma once

#include "cycle_part.hpp"

namespace ligament {

/// Arcs of a part, those of one maker between the same vertices once.
struct CircuitArc {
    std::uint32_t from = 0, to = 0;
    std::uint32_t edge = 0;   ///< index into Graph::edges
    std::uint32_t price = 0;  ///< 1 where it counts: it leaves a bone, or, in a circuit without bones, a property
};

/// Every circuit is looked for from its first vertex, its root, among the vertices that are still alive at the root's turn: no
/// root before it has one, and they need and are needed by others that are alive.
struct CircuitGraph {
    std::vector<std::uint32_t> first_out, first_in;  ///< size vertices + 1
    std::vector<CircuitArc> out;                     ///< by start, then by end, then in the order of the graph
    std::vector<std::uint32_t> in;                   ///< by end: indices into `out`
    std::vector<std::uint32_t> roots;                ///< ascending; bones come before all else
    std::vector<std::uint32_t> turns;                ///< by vertex: how many roots' turns it is alive in
    std::uint32_t bones = 0;                         ///< vertices below are bones

    std::uint32_t size() const { return static_cast<std::uint32_t>(first_out.size() - 1); }
    /// Whether a circuit from this root, the one of this turn, may pass the vertex.
    bool is_alive(std::uint32_t v, std::uint32_t turn) const { return turns[v] > turn; }
    std::span<const CircuitArc> from(std::uint32_t v) const { return {out.data() + first_out[v], out.data() + first_out[v + 1]}; }
    std::span<const std::uint32_t> to(std::uint32_t v) const { return {in.data() + first_in[v], in.data() + first_in[v + 1]}; }
    std::uint32_t price(const CircuitArc& arc, std::uint32_t root) const {
        return root < bones ? (arc.from < bones ? 1U : 0U) : arc.price;
    }
};

CircuitGraph build_circuit_graph(const CyclePart& part);

}  // namespace ligament
