// Which is a shortest cycle? Searched in the components of one grain.
#pragma once

#include <span>
#include <vector>

#include "ligament/facts.hpp"
#include "rows.hpp"

namespace ligament {

/// A cycle edge by edge, and whether none is shorter.
struct Witness {
    std::vector<PathEdge> edges;
    bool is_shortest = true;
};

/// The vertices of one strongly connected component of a graph, ascending, and the live edges between them, numbered by place
/// in `vertices`.
struct Core {
    std::vector<VertexId> vertices;
    Rows rows;
    std::vector<std::uint32_t> edges;  ///< by position in rows.needs: index into Graph::edges
    bool has_bones = false;
};

/// A cycle with the fewest edges that leave a bone; where no core has bones, that leave a property. Of several the one through
/// the earliest core, in it through the earliest vertex at which such an edge starts.
/// Searches from one such vertex after the other, takes it out and peels off what is on no cycle any more; so a ring costs one
/// search. Stops after 64 looks at an edge on the average and 10 million, for cores that are large and dense; what it has then
/// may not be the shortest.
Witness find_witness(const Graph& graph, std::span<const Core> cores);

}  // namespace ligament
