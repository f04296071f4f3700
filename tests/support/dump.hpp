// Compact dumps of graphs, for tests that compare text.
#pragma once

#include <string>
#include <string_view>

#include "ligament/graph.hpp"

namespace ligament::testing {

/// One line an edge, "TO <- FROM (KIND BY)", with " inert" where it is. Only edges into vertices whose name starts with `to`,
/// in the order of the graph. Order edges are left out unless asked for.
std::string dump_needs(const Rig& rig, Grain grain, std::string_view to = {}, bool with_order = false);

/// The same with the weights that gate: "(KIND BY gated by CONSTRAINT)" or "(... gated by CONSTRAINT source N)".
std::string dump_gates(const Rig& rig, Grain grain, std::string_view to = {});

}  // namespace ligament::testing
