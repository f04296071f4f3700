// Which chain of bones makes an order as deep as it is?
#pragma once

#include <vector>

#include "components.hpp"
#include "ligament/facts.hpp"

namespace ligament {

/// Fills longest_chain and longest_chain_edges of an order whose levels are known, from the first bone of the last level back,
/// at each level over to the first bone in file order that is needed. `depth` is, by live component of the bone grain, its
/// level, or the highest level of what it needs where it has no bone. Linear.
void find_longest_chain(const Dependencies& dependencies, const Condensation& live, const std::vector<std::uint32_t>& depth,
                        Order& order);

}  // namespace ligament
