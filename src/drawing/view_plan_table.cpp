// In which rows and columns do the cards of a plan stand?
#include "view_plan_table.hpp"

#include <algorithm>
#include <tuple>

namespace ligament {

namespace {

/// Cards that stand in lines of the same length, the last one as it comes.
struct Lot {
    std::vector<std::uint32_t> cards;
    std::size_t length = 1;
};

/// Rows of a lot begin below each other; the longest stands in the middle.
void add_lots(CardTable& table, const std::vector<Lot>& lots) {
    for (const Lot& lot : lots)
        table.columns = std::max(table.columns, static_cast<std::uint32_t>(std::min(lot.length, lot.cards.size())));
    for (const Lot& lot : lots)
        for (std::size_t at = 0; at < lot.cards.size(); at += lot.length) {
            const std::size_t end = std::min(lot.cards.size(), at + lot.length);
            table.rows.emplace_back(lot.cards.begin() + static_cast<std::ptrdiff_t>(at),
                                    lot.cards.begin() + static_cast<std::ptrdiff_t>(end));
            table.first_column.push_back((table.columns - static_cast<std::uint32_t>(std::min(lot.length, lot.cards.size()))) /
                                         2);
        }
}

std::vector<std::vector<std::uint32_t>> cards_by_level(const GroupGraph& graph, const std::vector<std::uint32_t>& level) {
    std::vector<std::vector<std::uint32_t>> levels;
    for (std::uint32_t card : cards_by_place(graph)) {
        if (levels.size() <= level[card]) levels.resize(level[card] + std::size_t{1});
        levels[level[card]].push_back(card);
    }
    std::erase_if(levels, [](const auto& cards) { return cards.empty(); });
    return levels;
}

std::vector<Lot> lots_of(const std::vector<std::vector<std::uint32_t>>& levels, std::size_t columns, Rows how) {
    std::vector<Lot> lots;
    for (const auto& cards : levels) {
        const bool fits = !lots.empty() && lots.back().cards.size() + cards.size() <= columns;
        const bool joins = !lots.empty() && (how == Rows::flowing || (how == Rows::packed && fits));
        if (!joins) lots.emplace_back();
        lots.back().cards.insert(lots.back().cards.end(), cards.begin(), cards.end());
    }
    for (Lot& lot : lots) {
        const std::size_t lines = (lot.cards.size() + columns - 1) / columns;
        lot.length = how == Rows::flowing ? columns : (lot.cards.size() + lines - 1) / lines;
    }
    return lots;
}

/// Cards of a row and level are put in the order of the mean places of what they need, from top to bottom; what needs nobody
/// stays.
void sort_by_sources(const GroupGraph& graph, const std::vector<std::uint32_t>& level, CardTable& table) {
    std::vector<std::vector<std::uint32_t>> sources(graph.cards.size());
    for (const GroupNeed& need : graph.needs) sources[need.to].push_back(need.from);
    std::vector<double> at(graph.cards.size(), -1);
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        auto& row = table.rows[r];
        std::vector<std::tuple<std::uint32_t, double, std::uint32_t>> sorted;  // level, place, card
        for (std::size_t i = 0; i < row.size(); ++i) {
            double sum = 0, count = 0;
            for (std::uint32_t from : sources[row[i]])
                if (at[from] >= 0) sum += at[from], ++count;
            const double own = table.first_column[r] + static_cast<double>(i);
            sorted.emplace_back(level[row[i]], count > 0 ? sum / count : own, row[i]);
        }
        std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) {
            return std::pair(std::get<0>(a), std::get<1>(a)) < std::pair(std::get<0>(b), std::get<1>(b));
        });
        for (std::size_t i = 0; i < row.size(); ++i) {
            row[i] = std::get<2>(sorted[i]);
            at[row[i]] = table.first_column[r] + static_cast<double>(i);
        }
    }
}

}  // namespace

CardTable table_of(const GroupGraph& graph, const std::vector<std::uint32_t>& level, std::uint32_t columns, Rows how) {
    CardTable table;
    add_lots(table, lots_of(cards_by_level(graph, level), columns, how));
    sort_by_sources(graph, level, table);
    return table;
}

CardTable in_plain_order(const GroupGraph& graph, const std::vector<std::uint32_t>& level, CardTable table) {
    const std::vector<std::uint32_t> order = cards_by_place(graph);
    std::vector<std::uint32_t> rank(order.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) rank[order[i]] = i;
    for (auto& row : table.rows)
        std::sort(row.begin(), row.end(),
                  [&](std::uint32_t a, std::uint32_t b) { return std::pair(level[a], rank[a]) < std::pair(level[b], rank[b]); });
    return table;
}

}  // namespace ligament
