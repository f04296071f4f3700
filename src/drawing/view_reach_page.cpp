// Where do the bands of limbs go?
#include "view_reach_page.hpp"

#include <algorithm>
#include <cmath>

#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double column_gap = 14, band_gap = 10, padding = 6;
constexpr double title_height = 20, state_height = 16, row_gap = 5;
constexpr double arrow_width = 34, left_share = 0.44;

/// A row as it is drawn: words and rows of both sides.
struct Piece {
    std::string left_words, right_words;
    Tone right_tone = Tone::alarm;
    std::vector<Row> left, right;
    RowGrid left_grid, right_grid;
    bool moves = true;  ///< there is somebody on the left

    double height() const {
        const double a = left_grid.height() + (left_words.empty() ? 0 : row_height);
        const double b = right_grid.height() + (right_words.empty() ? 0 : row_height);
        return std::max(std::max(a, b), row_height) + padding;
    }
};

double left_width(const ReachPages& pages) { return std::floor((pages.width - 2 * padding - arrow_width) * left_share); }
double right_width(const ReachPages& pages) { return pages.width - 2 * padding - arrow_width - left_width(pages); }

std::vector<Row> rows_of(const Subject& subject, const std::vector<BoneId>& bones) {
    std::vector<Row> rows;
    for (BoneId bone : bones) rows.push_back(plain_row_of(subject, bone));
    return rows;
}

Row counted(std::size_t count, const std::string& noun, Row::Sign sign) {
    Row row;
    row.words = number_of(count, noun);
    row.sign = sign;
    return row;
}

/// Controls of `row` beyond those of the row above it, where that saves something.
std::vector<BoneId> beyond(const ReachRow& row, const ReachRow* above) {
    if (!above || above->state != row.state || above->controls.size() < 3) return row.controls;
    if (!std::includes(row.controls.begin(), row.controls.end(), above->controls.begin(), above->controls.end()))
        return row.controls;
    std::vector<BoneId> more;
    std::set_difference(row.controls.begin(), row.controls.end(), above->controls.begin(), above->controls.end(),
                        std::back_inserter(more));
    return more;
}

Piece piece_of(const ReachPages& pages, const ReachPlan& plan, const ReachRow& row, const ReachRow* above) {
    Piece piece;
    if (plan.is_counted) {
        if (row.is_moved) piece.left.push_back(counted(row.control_count, "control", Row::Sign::control));
        piece.right.push_back(counted(row.bones.size(), "deform bone", Row::Sign::deform));
        piece.moves = row.is_moved;
    } else {
        const std::vector<BoneId> controls = beyond(row, above);
        if (row.by_shared_alone) piece.left_words = "by these alone";
        piece.left = rows_of(pages.subject, controls);
        if (controls.size() < row.controls.size()) {
            Row words;
            words.words = controls.empty() ? "as above" : "as above, and";
            words.tone = Tone::quiet;
            piece.left.insert(piece.left.begin(), std::move(words));
        }
        piece.right = rows_of(pages.subject, row.bones);
        piece.moves = row.is_moved;
    }
    if (!piece.moves) piece.left_words = "no control";
    if (row.verdict != Verdict::attached) {
        const bool is_loose = row.verdict != Verdict::carried;
        piece.right_words = is_loose ? "not attached: " + std::string(name_of(row.verdict)) : "carried by their deform parent";
        piece.right_tone = is_loose ? Tone::alarm : Tone::quiet;
        for (Row& bone : piece.right) bone.hatched = is_loose;
    }
    piece.left_grid = fit_grid(piece.left, left_width(pages) - 2 * padding);
    piece.right_grid = fit_grid(piece.right, right_width(pages) - 2 * padding);
    return piece;
}

/// What stands before the controls that a limb's bones share, and the grid of these.
std::string shared_words(const ReachBand& band) { return band.shared_by_moved ? "all that move by" : "all by"; }

double shared_indent(const ReachBand& band) { return width_of(shared_words(band), row_size) + 10; }

RowGrid shared_grid(const ReachPages& pages, const ReachBand& band, const std::vector<Row>& shared) {
    return fit_grid(shared, pages.width - 2 * padding - shared_indent(band));
}

/// A band while it is drawn.
struct OpenBand {
    ReachPages& pages;
    const ReachPlan& plan;
    const ReachBand& band;
    std::vector<Row> shared;
    double top = 0;
    std::string state;  ///< the heading last written in this column
    bool has_title = false, was_begun = false;

    double heads(const std::string& next_state) const {
        double height = 0;
        if (!has_title)
            height += title_height + (was_begun || shared.empty() ? 0 : shared_grid(pages, band, shared).height() + 4);
        if (!next_state.empty() && (!has_title || next_state != state)) height += state_height;
        return height;
    }

    void open() {
        top = pages.y;
        Label title = label_at(pages.x() + padding, pages.y + 4, {}, Tone::ink, true);
        const std::string more = was_begun ? " (continued)" : "";
        title.size = 11;
        title.words = cut_in_middle(band.title, 11, pages.width - 2 * padding - width_of(more, 11)) + more;
        title.hover = isolated(band.title);
        title.about = {About::Kind::group, band.group};
        pages.scene().add(std::move(title));
        pages.y += title_height;
        has_title = true;
        state.clear();
        if (!was_begun && !shared.empty()) {
            pages.scene().add(label_at(pages.x() + padding, pages.y, shared_words(band), Tone::quiet));
            const RowGrid grid = shared_grid(pages, band, shared);
            pages.add_rows(shared, grid, {pages.x() + padding + shared_indent(band), pages.y});
            pages.y += grid.height() + 4;
        }
        was_begun = true;
    }

    void close() {
        if (!has_title) return;
        pages.scene().backdrops.insert(pages.scene().backdrops.begin(),
                                       {{pages.x(), top, pages.width, pages.y - top}, Backdrop::Look::lane, 6, {}, {}});
        pages.y += band_gap;
        has_title = false;
    }

    void write_state(const std::string& next) {
        if (next.empty() || next == state) return;
        Label label =
            label_at(pages.x() + padding, pages.y + 2, cut_in_middle(next, row_size, pages.width - 2 * padding), Tone::ink, true);
        label.hover = isolated(next);
        pages.scene().add(std::move(label));
        pages.y += state_height;
        state = next;
    }

    void draw_card(const std::vector<Row>& rows, const RowGrid& grid, const std::string& words, Tone tone, Rect card) {
        pages.scene().backdrops.push_back({card, Backdrop::Look::frame, 4, {}, {}});
        double y = card.y + padding / 2;
        if (!words.empty()) {
            pages.scene().add(label_at(card.x + padding, y, words, tone, tone == Tone::alarm));
            y += row_height;
        }
        pages.add_rows(rows, grid, {card.x + padding, y});
    }

    void draw(const Piece& piece, const std::string& next_state) {
        if (!has_title) open();
        write_state(next_state);
        const double x = pages.x() + padding, height = piece.height();
        const Rect left{x, pages.y, left_width(pages), height};
        const Rect right{left.right() + arrow_width, pages.y, right_width(pages), height};
        draw_card(piece.left, piece.left_grid, piece.left_words, piece.moves ? Tone::quiet : Tone::alarm, left);
        draw_card(piece.right, piece.right_grid, piece.right_words, piece.right_tone, right);
        if (piece.moves) {
            pages.scene().marks.push_back(moves_mark({left.right() + arrow_width / 2, pages.y + std::min(height / 2, 24.0)}));
            pages.has_arrows.back() = true;
        }
        pages.y += height + row_gap;
    }

    /// Room for a piece, in the next column if need be. True where that is a new one.
    bool make_room(double height, const std::string& next_state) {
        if (heads(next_state) + height + row_gap <= pages.left()) return false;
        close();
        pages.next_column();
        return true;
    }

    /// What is higher than a column.
    void draw_in_parts(const Piece& whole, const std::string& next_state) {
        std::size_t left = 0, right = 0;
        while (left < whole.left.size() || right < whole.right.size()) {
            make_room(6 * row_height, next_state);
            const double free = pages.left() - heads(next_state) - row_height - padding - row_gap;
            const auto lines = static_cast<std::size_t>(std::max(1.0, std::floor(free / row_height)));
            Piece part = whole;
            take(part.left, part.left_grid, whole.left, left, lines);
            take(part.right, part.right_grid, whole.right, right, lines);
            if (part.left.empty() && whole.moves) part.left_words = "(continued)";
            if (part.right.empty()) part.right_words = "(continued)", part.right_tone = Tone::quiet;
            draw(part, next_state);
        }
    }

    static void take(std::vector<Row>& part, RowGrid& grid, const std::vector<Row>& whole, std::size_t& from, std::size_t lines) {
        const std::size_t to = std::min(whole.size(), from + lines * grid.columns);
        part.assign(whole.begin() + static_cast<std::ptrdiff_t>(from), whole.begin() + static_cast<std::ptrdiff_t>(to));
        grid.rows = (part.size() + grid.columns - 1) / grid.columns;
        from = to;
    }

    void write_note() {
        if (band.note.empty()) return;
        Label quiet;
        quiet.size = row_size, quiet.tone = Tone::quiet;
        const std::vector<std::string> lines = broken(band.note, row_size, pages.width - 2 * padding);
        make_room(static_cast<double>(lines.size()) * row_height, state);
        if (!has_title) open();
        pages.y += add_lines(pages.scene(), lines, {pages.x() + padding, pages.y}, quiet) + 2;
    }
};

}  // namespace

ReachPages::ReachPages(const Subject& of, Room on) : subject(of), room(on) {
    constexpr double least_width = 460;
    columns = std::max<std::size_t>(1, static_cast<std::size_t>((room.width + column_gap) / (least_width + column_gap)));
    width = (room.width - column_gap * static_cast<double>(columns - 1)) / static_cast<double>(columns);
    start_sheet();
}

double ReachPages::x() const { return static_cast<double>(column) * (width + column_gap); }

void ReachPages::start_sheet() {
    sheets.emplace_back();
    shown.emplace_back();
    has_arrows.push_back(false);
    column = 0, top = 0, y = 0;
}

void ReachPages::next_column() {
    if (++column >= columns) return start_sheet();
    y = top;
}

void ReachPages::add_rows(const std::vector<Row>& rows, const RowGrid& grid, Point at) {
    shown.back().insert(shown.back().end(), rows.begin(), rows.end());
    add_grid(scene(), rows, grid, at);
}

void ReachPages::finish() {
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        fit_scene(sheets[i].scene, room);
        sheets[i].legend = legend_of(shown[i], sheets[i].scene);
        if (!has_arrows[i]) continue;
        LegendEntry entry;
        entry.sample.width = 22, entry.sample.height = 14;
        entry.sample.marks.push_back(moves_mark({11, 7}));
        entry.text = "the controls move the deform bones";
        sheets[i].legend.push_back(std::move(entry));
    }
}

void add_band(ReachPages& pages, const ReachPlan& plan, const ReachBand& band) {
    OpenBand open{pages, plan, band, {}, 0, {}, false, false};
    if (plan.is_counted) {
        if (!band.shared.empty()) open.shared.push_back(counted(band.shared.size(), "control", Row::Sign::control));
    } else {
        open.shared = rows_of(pages.subject, band.shared);
    }
    const ReachRow* above = nullptr;
    for (const ReachRow& row : band.rows) {
        Piece piece = piece_of(pages, plan, row, above);
        if (open.make_room(piece.height(), row.state)) piece = piece_of(pages, plan, row, nullptr);
        if (open.heads(row.state) + piece.height() + row_gap <= pages.left())
            open.draw(piece, row.state);
        else
            open.draw_in_parts(piece, row.state);
        above = &row;
    }
    open.write_note();
    open.close();
}

}  // namespace ligament
