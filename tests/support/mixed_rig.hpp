// Which small rigs have every sort of maker? Seeded random rigs from text, each element at a place of its own, circular ones too.
#pragma once

#include <string>

#include "ligament/rig.hpp"
#include "naive_graph.hpp"

namespace ligament::testing {

struct MixedRigOptions {
    unsigned bones = 8;
    unsigned backwards = 0;  ///< of a hundred references so many go to any bone; the others never close a cycle
};

/// Bones b0, b1, ... with parents, constraints of all sorts of weights, solvers, curves and driven channels; properties with and
/// without drivers; objects.
Rig mixed_rig(Random& random, const MixedRigOptions& options);

}  // namespace ligament::testing
