// Where do the columns of the order of evaluation stand on a page?
#include "view_order_page.hpp"

#include <algorithm>
#include <cmath>

#include "shapes.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double widest_box = 150;
constexpr double lane_title = 18, lane_left = 20, lane_right = 8, lane_below = 6, lane_gap = 8;

LegendEntry chain_entry() {
    LegendEntry entry;
    entry.sample.width = 40, entry.sample.height = 14;
    entry.sample.backdrops.push_back({{0, 3.5, 40, 7}, Backdrop::Look::bar, 0, {}, {}});
    entry.text = "broad line: the longest chain";
    return entry;
}

std::string head_of(const OrderLevel& level) {
    const std::string first = std::to_string(level.first);
    return level.first == level.last ? "level " + first : "levels " + first + " to " + std::to_string(level.last);
}

/// A bone of the longest chain. That it waits is said here, where it does not stand apart.
Box chain_box(const Subject& subject, BoneId bone) {
    Box box = box_of(subject, bone, widest_box);
    box.hover += time_of(subject, bone);
    const std::vector<BoneId>& blocked = subject.facts.order.blocked;
    if (std::binary_search(blocked.begin(), blocked.end(), bone)) {
        box.word += ", waits";
        box.hover += "\nwaits for a cycle";
    }
    return box;
}

std::string count_of(const OrderLevel& level) {
    std::string text = number_of(level.bones, "bone");
    if (level.apart) text += ", " + std::to_string(level.apart) + " apart";
    return text;
}

std::vector<Row> rows_of(const OrderLane& lane, const LanePiece& piece) {
    return {lane.rows.begin() + static_cast<std::ptrdiff_t>(piece.from),
            lane.rows.begin() + static_cast<std::ptrdiff_t>(piece.to)};
}

std::string title_of(const OrderLane& lane, bool is_continued) { return lane.title + (is_continued ? " (continued)" : ""); }

/// The scene of one sheet while it is drawn.
struct PageDrawing {
    const Subject& subject;
    const OrderPlan& plan;
    Room room;
    Scene& scene;
    std::vector<Row> shown;
    std::uint32_t last_box = none;  ///< the box of the chain before

    void add_row_at(const Row& row, Point at, double width) {
        shown.push_back(row);
        add_row(scene, row, at, width);
    }

    // The profile.

    void draw_profile(std::uint32_t first, std::uint32_t last) {
        constexpr double top = 14, height = 34;
        const auto& levels = subject.facts.order.levels;
        const std::size_t bars = std::min<std::size_t>(levels.size(), 240);
        const double each = std::min(34.0, (room.width - 2 * margin) / static_cast<double>(bars));
        std::size_t most = 1;
        for (const auto& level : levels) most = std::max(most, level.size());
        for (std::size_t bar = 0; bar < bars; ++bar) {
            const std::size_t from = bar * levels.size() / bars, to = (bar + 1) * levels.size() / bars;
            std::size_t bones = 0;
            for (std::size_t l = from; l < to; ++l) bones = std::max(bones, levels[l].size());
            const double h = std::max(1.5, height * static_cast<double>(bones) / static_cast<double>(most));
            const double x = margin + static_cast<double>(bar) * each;
            const bool is_here = to >= first && from + 1 <= last;
            std::string hover = "level " + std::to_string(from + 1);
            if (to > from + 1) hover = "levels " + std::to_string(from + 1) + " to " + std::to_string(to) + ", at most";
            scene.backdrops.push_back({{x, top + height - h, std::max(each - 1.5, 0.8), h},
                                       is_here ? Backdrop::Look::strong_bar : Backdrop::Look::bar,
                                       0,
                                       hover + ": " + number_of(bones, "bone"),
                                       {}});
            label_bar(std::to_string(bones), {x + (each - 1.5) / 2, top + height - h - 3}, each);
        }
        label_axis(bars, each, top + height + 1, first <= last);
    }

    void label_bar(const std::string& number, Point at, double room_for_it) {
        if (width_of(number, row_size) + 1 > room_for_it) return;
        Label label;
        label.at = at, label.words = number, label.size = row_size, label.align = Align::middle, label.tone = Tone::quiet;
        scene.add(std::move(label));
    }

    void label_axis(std::size_t bars, double each, double y, bool has_levels) {
        const std::size_t count = subject.facts.order.levels.size();
        const double width = each * static_cast<double>(bars);
        std::string text = count == 1 ? "bones on the one level" : "bones a level, levels 1 to " + std::to_string(count);
        if (has_levels && count > 1) text += "; dark bars: on this page";
        scene.add(label_at(margin, y, text, Tone::quiet));
        room_used = std::max({room_used, margin + width, margin + width_of(text, row_size)});
    }

    double room_used = 0;

    // Columns.

    void draw_band(const OrderBand& band, double y) {
        double x = margin;
        for (std::size_t i = 0; i < band.columns.size(); ++i) {
            const OrderColumn& column = band.columns[i];
            const bool is_next = i > 0 && band.columns[i - 1].level == column.level;
            if (i > 0) x += is_next ? part_gap : column_gap;
            if (!is_next) draw_head(band, i, {x, y});
            if (column.is_first()) draw_chain(column, {x, y + band_head + band.chain / 2}, y);
            const OrderLevel& level = plan.levels[column.level];
            double row_y = y + band_head + band.chain;
            for (std::size_t r = column.from; r < column.to; ++r, row_y += row_height)
                add_row_at(level.rows[r], {x + 4, row_y}, column.width - 8);
            x += column.width;
        }
        room_used = std::max(room_used, x);
    }

    /// The lane behind all columns of a level in the band, and the words on it.
    void draw_head(const OrderBand& band, std::size_t at, Point corner) {
        const OrderColumn& column = band.columns[at];
        const OrderLevel& level = plan.levels[column.level];
        double width = column.width;
        for (std::size_t i = at + 1; i < band.columns.size() && band.columns[i].level == column.level; ++i)
            width += part_gap + band.columns[i].width;
        scene.backdrops.push_back({{corner.x, corner.y, width, band.height()}, Backdrop::Look::lane, 6, {}, {}});
        const std::string more = column.is_first() ? "" : " (continued)";
        scene.add(label_at(corner.x + 5, corner.y + 3, head_of(level) + more, Tone::ink, true));
        scene.add(label_at(corner.x + 5, corner.y + 16, count_of(level), Tone::quiet));
    }

    void draw_chain(const OrderColumn& column, Point left_middle, double band_y) {
        const OrderLevel& level = plan.levels[column.level];
        if (level.chain == none) return;
        Node node;
        node.box = chain_box(subject, level.chain);
        if (level.first < level.last) node.box.hover += "\nfirst of the chain's bones on these levels";
        const Size size = size_of(node.box);
        node.rect = {left_middle.x + 4, left_middle.y - size.height / 2, size.width, size.height};
        node.about = {About::Kind::bone, level.chain};
        const std::uint32_t box = scene.add(std::move(node));
        if (level.first > 1) draw_link(box, level.first - 1, band_y);
        last_box = box;
    }

    /// From the chain's box before, on the same row or by way of the gap between two bands; from the margin where that box is on
    /// another sheet.
    void draw_link(std::uint32_t to, std::uint32_t place, double band_y) {
        const Rect& end = scene.nodes[to].rect;
        Stroke stroke;
        stroke.to = to, stroke.from = last_box;
        std::vector<Point> corners;
        const Point tip{end.x, end.centre().y};
        if (last_box == none) {
            corners = {{1, tip.y}, tip};
        } else {
            const Rect& start = scene.nodes[last_box].rect;
            const Point from{start.right(), start.centre().y};
            if (std::abs(from.y - tip.y) < 1 && from.x < tip.x) {
                corners = {from, tip};
            } else {
                const double right = room.width - 4.5, left = 4.5, between = band_y - band_gap / 2;
                corners = {from, {right, from.y}, {right, between}, {left, between}, {left, tip.y}, tip};
                room_used = room.width;
            }
        }
        if (place - 1 < subject.facts.order.longest_chain_edges.size()) {
            const FoldedEdge& edge = subject.facts.order.longest_chain_edges[place - 1];
            stroke.kind = edge.kind;
            stroke.hover = "the longest chain: " + isolated(drawable(subject.rig.bones[edge.from].name)) + " -> " +
                           isolated(drawable(subject.rig.bones[edge.to].name)) + "\n" + std::string(name_of(edge.kind)) +
                           ", made by " + isolated(drawable(ligament::name_of(subject.rig, subject.dependencies, edge.maker)));
        }
        for (std::size_t i = 1; i < corners.size(); ++i) {
            const double head = i + 1 == corners.size() ? std::min(11.0, corners[i].x - corners[i - 1].x) : 0;
            draw_halo(corners[i - 1], {corners[i].x - head, corners[i].y});
        }
        stroke.curve = curve_along(corners, 8, 9);
        scene.strokes.push_back(std::move(stroke));
    }

    /// A broad bar behind a piece of the chain's line, which runs straight across or down.
    void draw_halo(Point from, Point to) {
        constexpr double half = 3.5;
        const double left = std::min(from.x, to.x), top = std::min(from.y, to.y);
        const bool is_across = std::abs(from.y - to.y) < 1;
        const Rect rect = is_across ? Rect{left, top - half, std::abs(from.x - to.x), 2 * half}
                                    : Rect{left - half, top, 2 * half, std::abs(from.y - to.y)};
        scene.backdrops.push_back({rect, Backdrop::Look::bar, 0, {}, {}});
    }

    // What stands apart.

    void draw_lane(const LanePiece& piece) {
        const OrderLane& lane = plan.lanes[piece.lane];
        const std::vector<Row> rows = rows_of(lane, piece);
        scene.backdrops.push_back({piece.rect, Backdrop::Look::alarm_lane, 6, {}, {}});
        Label title = label_at(piece.rect.x + lane_left, piece.rect.y + 4, title_of(lane, piece.from > 0), Tone::alarm, true);
        if (lane.cycle) title.about = {About::Kind::cycle, lane.cycle - 1};
        scene.add(std::move(title));
        shown.insert(shown.end(), rows.begin(), rows.end());
        add_grid(scene, rows, piece.grid, {piece.rect.x + lane_left, piece.rect.y + lane_title});
        room_used = std::max(room_used, piece.rect.right());
    }
};

/// Lanes side by side where they are small, else below each other.
struct LaneFlow {
    Room room;
    double height;
    std::vector<OrderPage>& pages;
    double x = margin, shelf = 0;

    void add(const OrderPlan& plan, std::size_t lane);
    void end_shelf();
};

}  // namespace

OrderColumn measured_column(const Subject& subject, const OrderLevel& level, double widest) {
    OrderColumn column;
    for (const Row& row : level.rows) column.width_of_rows = std::max(column.width_of_rows, std::min(width_of(row), longest_row));
    column.width_of_rows = std::min(widest, std::ceil(column.width_of_rows) + 8);
    const double head = width_of(head_of(level), row_size) + 10, count = width_of(count_of(level), row_size) + 10;
    const double head_if_continued = width_of(head_of(level) + " (continued)", row_size) + 10;
    column.width_if_continued = std::ceil(std::max({column.width_of_rows, head_if_continued, count}));
    column.width = std::ceil(std::max({column.width_of_rows, head, count}));
    if (level.chain == none) return column;
    const Size box = size_of(chain_box(subject, level.chain));
    column.width = std::max(column.width, box.width + 8);
    column.chain = box.height + 8;
    return column;
}

void OrderBand::add(const OrderColumn& column) {
    columns.push_back(column);
    rows = std::max(rows, column.to - column.from);
    if (column.is_first()) chain = std::max(chain, column.chain);
}

void LaneFlow::add(const OrderPlan& plan, std::size_t lane) {
    const std::vector<Row>& rows = plan.lanes[lane].rows;
    const double width = room.width - 2 * margin, inner = width - lane_left - lane_right;
    RowGrid whole = fit_grid(rows, inner, 190);
    if (rows.size() <= 12) whole.columns = std::min(whole.columns, (rows.size() + 3) / 4);  // small ones stand side by side
    for (std::size_t from = 0; from < rows.size();) {
        const double title = std::ceil(width_of(title_of(plan.lanes[lane], from > 0), row_size));
        const double needed =
            lane_left + std::max(std::min(static_cast<double>(whole.columns) * whole.cell, inner), title) + lane_right;
        const bool beside = x > margin && x + needed <= margin + width && rows.size() <= 12;
        if (!beside) end_shelf();
        if (pages.empty() || pages.back().used + lane_title + lane_below + 4 * row_height > height) pages.emplace_back();
        OrderPage& page = pages.back();
        const double left = height - page.used - lane_title - lane_below;
        const std::size_t lines = static_cast<std::size_t>(std::max(1.0, std::floor(left / row_height)));
        LanePiece piece{lane, from, std::min(rows.size(), from + lines * whole.columns), whole, {}};
        piece.grid.rows = (piece.to - from + whole.columns - 1) / whole.columns;
        piece.rect = {x, profile_height + page.used, std::min(needed, width), lane_title + piece.grid.height() + lane_below};
        shelf = std::max(shelf, piece.rect.height);
        x += piece.rect.width + lane_gap;
        from = piece.to;
        page.lanes.push_back(std::move(piece));
    }
}

void LaneFlow::end_shelf() {
    if (shelf > 0) pages.back().used += shelf + lane_gap;
    shelf = 0, x = margin;
}

void add_lanes(const OrderPlan& plan, Room room, std::vector<OrderPage>& pages) {
    LaneFlow flow{room, room.height - profile_height, pages};
    for (std::size_t lane = 0; lane < plan.lanes.size(); ++lane) flow.add(plan, lane);
    flow.end_shelf();
}

void draw_order_page(const Subject& subject, const OrderPlan& plan, const OrderPage& page, Room room, Sheet& sheet) {
    PageDrawing drawing{subject, plan, room, sheet.scene, {}};
    std::uint32_t first = 1, last = 0;
    double y = profile_height;
    if (!page.bands.empty()) {
        first = plan.levels[page.bands.front().columns.front().level].first;
        last = plan.levels[page.bands.back().columns.back().level].last;
    }
    drawing.draw_profile(first, last);
    for (const OrderBand& band : page.bands) {
        drawing.draw_band(band, y);
        y += band.height() + band_gap;
    }
    for (const LanePiece& piece : page.lanes) drawing.draw_lane(piece);
    sheet.scene.width = std::min(room.width, drawing.room_used + margin);
    sheet.scene.height = std::min(room.height, profile_height + page.used);
    sheet.legend = legend_of(drawing.shown, sheet.scene);
    if (!sheet.scene.strokes.empty()) sheet.legend.push_back(chain_entry());
}

}  // namespace ligament
