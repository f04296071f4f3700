// Which bone needs which, straight or through what is no bone?
#pragma once

#include <cstdint>
#include <vector>

#include "ligament/cycles.hpp"

namespace ligament {

/// Every live dependence, at bone grain, of a bone with `is_reader` on another bone with `is_read`, straight or through
/// properties, drivers, objects and solvers: one folded edge a pair of bones, the one with the fewest vertices between its ends.
/// In the order of the bone that is read, then of the reader. Both lists are by bone id. Inert edges do not count. Linear in the
/// graph, and for each bone that is read in what lies on the ways to its readers.
std::vector<FoldedEdge> find_links(const Rig& rig, const Dependencies& dependencies, const std::vector<bool>& is_read,
                                   const std::vector<bool>& is_reader);

/// All links of all bones.
std::vector<FoldedEdge> find_links(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
