// What has to come before what in an order? Both live and inert dependences between bones, without deadlock.
#pragma once

#include <cstdint>
#include <vector>

#include "components.hpp"
#include "ligament/graph.hpp"

namespace ligament {

/// Groups of bones and what must precede them. Nodes 0 up to the number of live components are these; nodes after them stand
/// for drivers, properties, objects and solvers and hold no bone.
struct Precedence {
    std::vector<std::uint32_t> first;  ///< size nodes + 1
    std::vector<std::uint32_t> after;  ///< the nodes that come after node n: after[first[n]] up to after[first[n + 1]]
};

/// Two tiers. For every live dependence between bones that are not in one live component, and every live or inert one between
/// bones that are not in one component of live and inert edges, straight or through what is no bone, the needed bone's node
/// comes first; nothing else has to. `live` are the components over the live edges of the bone grain. Free of cycles. Linear.
Precedence find_precedence(const Dependencies& dependencies, const Condensation& live);

}  // namespace ligament
