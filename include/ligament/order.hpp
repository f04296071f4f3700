// In which order can bones be evaluated, and how long does it take?
#pragma once

#include <cstdint>
#include <vector>

#include "ligament/cycles.hpp"

namespace ligament {

/// An order in which bones can be evaluated (bone grain).
struct Order {
    std::vector<BoneId> bones;                ///< every bone once
    std::vector<std::uint32_t> level;         ///< by bone id, from 1; bones of one cycle share a level
    std::vector<std::vector<BoneId>> levels;  ///< bones of each level, in file order
    std::vector<BoneId> longest_chain;  ///< one bone a level, each needing the one before; of a cycle the bone that is left by
    std::vector<FoldedEdge> longest_chain_edges;  ///< between neighbours of longest_chain, live
};

/// Kahn's method (CACM 5, 1962) on the condensation, the first bone in the file next among those whose needs are met.
Order find_order(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
