// Which vertices may come out different when a constraint is switched?
#pragma once

#include "ligament/graph.hpp"
#include "rows.hpp"

namespace ligament {

/// Of constraints with a driven weight; others have none.
struct StateGates {
    Rows gates_of;    ///< by constraint: its gates
    Rows targets_of;  ///< by constraint: the vertices of the motion graph that its gates or its step decide, ascending
};

/// Linear in the motion graph.
StateGates find_state_gates(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
