// Which elements of two revisions are the same ones, by name or by what surrounds them?
#pragma once

#include <vector>

#include "comparison_traits.hpp"
#include "ligament/comparison.hpp"

namespace ligament {

/// By node of the surroundings.
struct NodeMatching {
    Counterparts nodes;
    std::vector<double> certainty;  ///< by node after
};

/// As `Matching` says, of all sorts of elements at once.
NodeMatching match_nodes(const Surroundings& before, const Surroundings& after);

}  // namespace ligament
