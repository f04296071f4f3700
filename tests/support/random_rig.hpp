// What rigs are there to be wrong about? Small random rigs with switches, drivers of all sorts, solvers and cycles.
#pragma once

#include "ligament/rig.hpp"
#include "naive_graph.hpp"

namespace ligament::testing {

/// A rig of 4 to 15 bones. The same seed gives the same rig on every machine. Some list roots; some are circular.
Rig random_rig(unsigned seed);

}  // namespace ligament::testing
