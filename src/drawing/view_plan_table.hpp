// In which rows and columns do the cards of a plan stand?
#pragma once

#include <cstdint>
#include <vector>

#include "view_plan_graph.hpp"

namespace ligament {

/// Cards by row, left to right; `first_column` by row.
struct CardTable {
    std::vector<std::vector<std::uint32_t>> rows;
    std::vector<std::uint32_t> first_column;
    std::uint32_t columns = 0;
};

/// How levels go into rows, from top to bottom.
enum class Rows : std::uint8_t {
    by_level,  ///< each level has rows of its own
    packed,    ///< levels share a row where they fit into it whole
    flowing    ///< like words in lines, in the order of levels
};

/// At most `columns` cards a row, from left to right in the order of levels. Cards of a level that need each other's neighbours
/// come near each other (the barycentre method, Sugiyama, Tagawa and Toda 1981; from memory). Rows stand in the middle, those of
/// one long level below each other.
CardTable table_of(const GroupGraph& graph, const std::vector<std::uint32_t>& level, std::uint32_t columns, Rows how);

/// The same rows with cards of a level in the order of the evaluation, without regard to who needs whom.
CardTable in_plain_order(const GroupGraph& graph, const std::vector<std::uint32_t>& level, CardTable table);

}  // namespace ligament
