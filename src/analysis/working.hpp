// Does anything come of this constraint? Where what it writes goes in one state, or that it is thrown away.
#pragma once

#include <vector>

#include "ligament/graph.hpp"
#include "motion.hpp"
#include "rows.hpp"

namespace ligament {

/// Follows what constraints write, one after the other.
class WorkSearch {
  public:
    /// `needed_by`: who needs a vertex of the channel grain over edges that are not inert.
    WorkSearch(const Rig& rig, const Dependencies& dependencies, const Rows& needed_by);

    /// Not inert, of a weight that is not 0, and something of what it writes, on its bone or on the bones of its chain, gets on
    /// to the bone's final or curve or is read by something else before later steps replace it. Linear in the bones that it
    /// writes.
    bool works(ConstraintId constraint, const Liveness& liveness);

  private:
    bool follow(VertexId v, const Liveness& liveness);

    const Rig& rig_;
    const Dependencies& dependencies_;
    const Rows& needed_by_;
    Rows vertices_of_;                 ///< by constraint: the vertices that it runs in
    std::vector<std::uint32_t> seen_;  ///< by vertex: the last search that came by
    std::uint32_t search_ = 0;
    std::vector<VertexId> going_;
};

}  // namespace ligament
