// How does the dependency graph of a rig stand in SARIF 2.1.0?
#pragma once

#include <iosfwd>
#include <optional>
#include <span>
#include <vector>

#include "sarif_rows.hpp"

namespace ligament::sarif {

/// A graph of more vertices and edges together than this is shown around the findings alone, and says so.
inline constexpr std::size_t most_graph_parts = 20'000;

/// Which part of the bone grain is shown.
struct ShownGraph {
    std::vector<bool> is_shown;    ///< by vertex
    bool is_whole = true;          ///< all of it
    std::size_t findings = 0;      ///< of how many findings the surroundings are shown, where it is not whole
    std::size_t all_findings = 0;  ///< of so many
};

/// All vertices, or of a large graph those of the findings' bones and subjects with what they need and what needs them, as many
/// findings as `most` parts allow, in their order.
ShownGraph graph_to_show(const Report& report, std::span<const Finding* const> findings, std::size_t most = most_graph_parts);

/// One `graph` object: an edge leads from what is needed to what needs it.
void write_graph(std::ostream& out, const Report& report, const ShownGraph& shown);

/// The `graphTraversal` of a cycle's witness, where all of it is in the graph that is shown.
std::optional<Row> traversal_of(const Report& report, const ShownGraph& shown, const Cycle& cycle);

}  // namespace ligament::sarif
