// What is circular? Cycles of the live bone grain, each with the finest grain at which it is real.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "ligament/graph.hpp"

namespace ligament {

/// One edge of a witness or path, with what lies between its ends (drivers, properties, solvers, objects) folded into it.
struct FoldedEdge {
    std::uint32_t from = none;  ///< bone id; property id where Cycle::is_between_properties()
    std::uint32_t to = none;
    EdgeKind kind = EdgeKind::parent;  ///< of the first maker
    MakerId maker = 0;                 ///< the first maker
    std::vector<MakerId> through;      ///< the makers after the first one, in order
};

/// One strongly connected component of the live bone grain that has a cycle.
struct Cycle {
    std::vector<BoneId> bones;           ///< in file order; empty for a loop of properties alone
    std::vector<PropertyId> properties;  ///< in file order: the properties in the component
    Grain grain = Grain::bone;           ///< the finest grain at which a cycle is left in it
    std::vector<FoldedEdge> witness;     ///< a shortest cycle at that grain, edge by edge, from its first bone in file order
    bool witness_is_shortest = true;     ///< false where the search stopped at its bound
    std::vector<std::vector<BoneId>>
        cores;  ///< the bones of its components at that grain: each list once, none empty, in file order

    /// Whether the ends of the witness are properties: of the component nothing but loops of properties is left at that grain.
    bool is_between_properties() const { return cores.empty(); }
};

/// Cycles in the order of their first bone, those without bones first. Inert edges do not count.
/// The witness counts edges between bones; ties go to the earliest vertex in file order.
std::vector<Cycle> find_cycles(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
