// What is computed when?
#include <algorithm>
#include <cmath>

#include "view_order_columns.hpp"
#include "view_order_page.hpp"
#include "views.hpp"
#include "words.hpp"

namespace ligament {

namespace {

/// Levels cut into columns of at most `rows` rows, and these into bands that are no wider than the room.
std::vector<OrderBand> cut_into_bands(const OrderPlan& plan, const std::vector<OrderColumn>& measures, std::size_t rows,
                                      double width) {
    std::vector<OrderBand> bands;
    double used = width + 1;
    for (const OrderColumn& like : measures) {
        const std::size_t all = plan.levels[like.level].rows.size();
        const std::size_t parts = std::max<std::size_t>(1, (all + rows - 1) / rows);
        const std::size_t even = std::max<std::size_t>(1, (all + parts - 1) / parts);
        for (std::size_t from = 0; from == 0 || from < all; from += even) {
            OrderColumn column = like;
            column.from = from, column.to = std::min(from + even, all);
            const double gap = from > 0 ? part_gap : column_gap;
            if (from > 0) column.width = like.width_of_rows;
            if (used + gap + column.width > width) {
                bands.emplace_back();
                column.width = from > 0 ? like.width_if_continued : like.width;
                used = -gap;
            }
            used += gap + column.width;
            bands.back().add(column);
        }
    }
    return bands;
}

/// How many sheets bands take that stand below each other.
std::size_t sheets_for(const std::vector<OrderBand>& bands, double height) {
    std::size_t sheets = 1;
    double used = 0;
    for (const OrderBand& band : bands) {
        if (used > 0 && used + band.height() > height) ++sheets, used = 0;
        used += band.height() + band_gap;
    }
    return sheets;
}

/// The fewest bands among those with which the fewest sheets are needed.
std::vector<OrderBand> best_bands(const Subject& subject, const OrderPlan& plan, double width, double height) {
    std::vector<OrderColumn> measures;
    std::size_t longest = 1;
    for (std::uint32_t l = 0; l < plan.levels.size(); ++l) {
        measures.push_back(measured_column(subject, plan.levels[l], width));
        measures.back().level = l;
        longest = std::max(longest, plan.levels[l].rows.size());
    }
    const double most = std::max(1.0, std::floor((height - band_head - chain_height) / row_height));
    std::vector<OrderBand> best;
    std::size_t least = 0;
    for (std::size_t rows = std::min(longest, static_cast<std::size_t>(most)); rows >= 1; --rows) {
        std::vector<OrderBand> bands = cut_into_bands(plan, measures, rows, width);
        const std::size_t sheets = sheets_for(bands, height);
        if (best.empty() || sheets < least || (sheets == least && bands.size() < best.size()))
            best = std::move(bands), least = sheets;
    }
    return best;
}

std::string levels_text(const OrderPlan& plan, std::uint32_t first, std::uint32_t last) {
    const std::string all = std::to_string(plan.levels.empty() ? 0 : plan.levels.back().last);
    if (first > last) return "what stands apart";
    if (first == last) return "level " + std::to_string(first) + " of " + all;
    return "levels " + std::to_string(first) + " to " + std::to_string(last) + " of " + all;
}

std::vector<std::string> subtitle(const Subject& subject, const OrderPlan& plan, const std::string& here) {
    const Order& order = subject.facts.order;
    const auto widest = std::max_element(order.levels.begin(), order.levels.end(),
                                         [](const auto& a, const auto& b) { return a.size() < b.size(); });
    std::string counts = here + " \u00b7 " + number_of(subject.rig.bones.size(), "bone") + ", at most " +
                         std::to_string(widest->size()) + " side by side (level " +
                         std::to_string(widest - order.levels.begin() + 1) + ") \u00b7 longest chain " +
                         number_of(order.longest_chain.size(), "bone");
    std::vector<std::string> lines{std::move(counts)};
    std::string rule = "the bones of a level need only levels before it";
    if (plan.has_slack) rule += "; bold: no slack, started later all is done later";
    if (plan.is_counted)
        rule = "above " + std::to_string(most_bones_named) + " bones a level is counted by group, its " +
               std::to_string(most_groups_named) + " largest groups named" +
               (plan.levels.size() < order.levels.size() ? "; " + std::to_string(order.levels.size()) + " levels told in " +
                                                               std::to_string(plan.levels.size()) + " columns"
                                                         : "");
    lines.push_back(std::move(rule));
    if (!subject.facts.cycles.empty())
        lines.push_back("no order for " + number_of(plan.in_cycles, "bone") + " in cycles and " + std::to_string(plan.waiting) +
                        " waiting for them: apart below the levels" + (plan.is_counted ? "" : " with their level behind them") +
                        ", unless they are on the longest chain");
    return lines;
}

}  // namespace

std::vector<Sheet> plan_of_order(const Subject& subject, std::uint32_t, Room room) {
    const OrderPlan plan = plan_columns(subject);
    const double height = room.height - profile_height, width = room.width - 2 * margin;
    std::vector<OrderPage> pages;
    for (OrderBand& band : best_bands(subject, plan, width, height)) {
        if (pages.empty() || pages.back().used + band.height() > height) pages.emplace_back();
        pages.back().used += band.height() + band_gap;
        pages.back().bands.push_back(std::move(band));
    }
    add_lanes(plan, room, pages);
    std::vector<Sheet> sheets;
    for (const OrderPage& page : pages) {
        Sheet sheet;
        std::uint32_t first = 1, last = 0;
        if (!page.bands.empty()) {
            first = plan.levels[page.bands.front().columns.front().level].first;
            last = plan.levels[page.bands.back().columns.back().level].last;
        }
        sheet.subtitle = subtitle(subject, plan, levels_text(plan, first, last));
        draw_order_page(subject, plan, page, room, sheet);
        sheets.push_back(std::move(sheet));
    }
    number_sheets(sheets, subject, "order", drawable_title(subject, "order of evaluation"));
    return sheets;
}

}  // namespace ligament
