// How does an arbitrary digraph become a rig, or a dependency graph with any sorts of vertices?
#pragma once

#include <string>
#include <vector>

#include "ligament/graph.hpp"
#include "naive_graph.hpp"

namespace ligament::testing {

/// Bones b0, b1, ... ; for each arc u -> v a transform constraint on bone v that reads bone u, called "from_u".
Rig rig_of(const Digraph& graph);

/// An edge of a dependency graph made up by hand.
struct HandEdge {
    unsigned from = 0, to = 0;
    bool inert = false;
};

/// Of `size` vertices the first `bones` are bones, the others properties. All three grains are the same graph. Each edge has a
/// maker of its own, numbered as the edge.
Dependencies dependencies_of(unsigned size, unsigned bones, const std::vector<HandEdge>& edges);

/// Bones and properties with no more than names, for dependencies_of.
Rig plain_rig(unsigned bones, unsigned properties);

}  // namespace ligament::testing
