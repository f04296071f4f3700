// Does anything come of this constraint? Where what it writes goes in one state, or that it is thrown away.
#pragma once

#include <cstdint>
#include <vector>

#include "ligament/graph.hpp"
#include "motion.hpp"
#include "rows.hpp"
#include "visits.hpp"

namespace ligament {

/// What comes of a constraint in a state, least first.
enum class Work : std::uint8_t {
    off,       // inert, or of weight 0
    replaced,  // later steps throw all away that it writes, before anything else reads it
    done       // something gets on to the bone's final or curve, or is read by something else
};

/// Follows what constraints write, one after the other.
class WorkSearch {
  public:
    /// `needed_by`: who needs a vertex of the motion graph over edges that are not inert.
    WorkSearch(const Rig& rig, const Dependencies& dependencies, const Rows& needed_by);

    /// What the constraint does to its bone, or to the bones of its chain. Linear in the bones that it writes.
    Work find(ConstraintId constraint, const Liveness& liveness);

  private:
    bool follow(VertexId v, const Liveness& liveness);

    const Rig& rig_;
    const Dependencies& dependencies_;
    const Rows& needed_by_;
    std::vector<VertexRange> vertices_of_;  ///< by constraint: the vertices that it runs in
    Visits seen_;
    std::vector<VertexId> going_;
};

}  // namespace ligament
