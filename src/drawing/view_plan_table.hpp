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

/// Levels from top to bottom, each in as many rows of at most `columns` as it needs; or, where levels are not kept apart, cards
/// in the order of levels, written like words in lines of nearly equal length. Cards that need each other's neighbours come near
/// each other (the barycentre method, Sugiyama, Tagawa and Toda 1981), and short rows stand in the middle.
CardTable table_of(const GroupGraph& graph, const std::vector<std::uint32_t>& level, std::uint32_t columns, bool by_level);

/// How many rows that gives.
std::size_t rows_of(const std::vector<std::uint32_t>& level, std::uint32_t columns, bool by_level);

/// The same rows with cards in the order of the evaluation, without regard to who needs whom.
CardTable in_plain_order(const GroupGraph& graph, CardTable table);

}  // namespace ligament
