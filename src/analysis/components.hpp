// Which vertices need each other? Strongly connected components, in an order in which they can be worked off.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "rows.hpp"

namespace ligament {

/// Every vertex in exactly one component; a component comes after all components that it needs.
struct Condensation {
    std::vector<std::uint32_t> component_of;  ///< by vertex
    std::vector<std::uint32_t> first{0};      ///< size components + 1
    std::vector<std::uint32_t> members;       ///< of component c: [first[c], first[c + 1]), ascending

    std::uint32_t size() const { return static_cast<std::uint32_t>(first.size() - 1); }
    std::span<const std::uint32_t> of(std::uint32_t c) const {
        return {members.data() + first[c], members.data() + first[c + 1]};
    }
};

/// Peels off what nobody needs (Kahn, CACM 5, 1962), then Tarjan's algorithm (SIAM J. Computing 1, 1972; Boost's, which does not
/// recurse) on what is left: everything that leads into a cycle. Linear; the same rows give the same order.
Condensation find_components(const Rows& rows);

/// More than one vertex, or one that needs itself.
bool has_cycle(const Rows& rows, const Condensation& condensation, std::uint32_t component);

}  // namespace ligament
