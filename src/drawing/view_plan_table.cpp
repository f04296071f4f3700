// In which rows and columns do the cards of a plan stand?
#include "view_plan_table.hpp"

#include <algorithm>
#include <map>

namespace ligament {

namespace {

/// `cards` in `lines` lines of nearly equal length, the longer ones last.
void add_lines(CardTable& table, const std::vector<std::uint32_t>& cards, std::size_t lines) {
    std::size_t at = 0;
    for (std::size_t line = 0; line < lines; ++line) {
        const std::size_t end = cards.size() * (line + 1) / lines;
        table.rows.emplace_back(cards.begin() + static_cast<std::ptrdiff_t>(at),
                                cards.begin() + static_cast<std::ptrdiff_t>(end));
        at = end;
    }
}

void centre(CardTable& table) {
    table.columns = 0, table.first_column.clear();
    for (const auto& row : table.rows) table.columns = std::max(table.columns, static_cast<std::uint32_t>(row.size()));
    for (const auto& row : table.rows) table.first_column.push_back((table.columns - static_cast<std::uint32_t>(row.size())) / 2);
}

std::size_t lines_for(std::size_t cards, std::size_t columns) { return (cards + columns - 1) / columns; }

/// Rows are put in the order of the mean places of what their cards need, from top to bottom; what needs nobody stays.
void sort_by_sources(const GroupGraph& graph, CardTable& table) {
    std::vector<std::vector<std::uint32_t>> sources(graph.cards.size());
    for (const GroupNeed& need : graph.needs) sources[need.to].push_back(need.from);
    std::vector<double> at(graph.cards.size(), -1);
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        auto& row = table.rows[r];
        std::vector<std::pair<double, std::uint32_t>> sorted;
        for (std::size_t i = 0; i < row.size(); ++i) {
            double sum = 0, count = 0;
            for (std::uint32_t from : sources[row[i]])
                if (at[from] >= 0) sum += at[from], ++count;
            const double own = table.first_column[r] + static_cast<double>(i);
            sorted.emplace_back(count > 0 ? sum / count : own, row[i]);
        }
        std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
        for (std::size_t i = 0; i < row.size(); ++i) {
            row[i] = sorted[i].second;
            at[row[i]] = table.first_column[r] + static_cast<double>(i);
        }
    }
}

}  // namespace

std::size_t rows_of(const std::vector<std::uint32_t>& level, std::uint32_t columns, bool by_level) {
    if (!by_level) return lines_for(level.size(), columns);
    std::map<std::uint32_t, std::size_t> count;
    for (std::uint32_t l : level) ++count[l];
    std::size_t rows = 0;
    for (const auto& [l, cards] : count) rows += lines_for(cards, columns);
    return rows;
}

CardTable table_of(const GroupGraph& graph, const std::vector<std::uint32_t>& level, std::uint32_t columns, bool by_level) {
    std::vector<std::uint32_t> order = cards_by_place(graph);
    std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return level[a] < level[b]; });
    CardTable table;
    if (by_level) {
        std::map<std::uint32_t, std::vector<std::uint32_t>> levels;
        for (std::uint32_t card : order) levels[level[card]].push_back(card);
        for (const auto& [l, cards] : levels) add_lines(table, cards, lines_for(cards.size(), columns));
    } else {
        add_lines(table, order, lines_for(order.size(), columns));
    }
    centre(table);
    sort_by_sources(graph, table);
    return table;
}

CardTable in_plain_order(const GroupGraph& graph, CardTable table) {
    const std::vector<std::uint32_t> order = cards_by_place(graph);
    std::vector<std::uint32_t> rank(order.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) rank[order[i]] = i;
    for (auto& row : table.rows)
        std::sort(row.begin(), row.end(), [&](std::uint32_t a, std::uint32_t b) { return rank[a] < rank[b]; });
    return table;
}

}  // namespace ligament
