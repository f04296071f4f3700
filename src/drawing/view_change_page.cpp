// Where do cards of changes, and the lines to what is beside them, stand on their pages?
#include <algorithm>
#include <cmath>
#include <utility>

#include "shapes.hpp"
#include "style.hpp"
#include "text.hpp"
#include "view_change.hpp"

namespace ligament {

namespace {

constexpr double pitch = 22, small_height = 18;        // of the lines to neighbours, and of their boxes
constexpr double head_height = 20, title_height = 22;  // of the columns' heads, and of a group's
constexpr double card_gap = 14, padding = 6, line_gap = 13;
constexpr double widest_rename = 2 * rename_width + 80;
constexpr double stack_height = 6;  // what a stack takes beside its front

/// The columns of a page.
struct Columns {
    double side = 0, gap = 0, card = 0;

    explicit Columns(Room room) {
        side = std::clamp(room.width * 0.17, 150.0, 240.0);
        gap = 134;
        card = std::min(640.0, room.width - 2 * side - 2 * gap - 2);
    }
    double card_at() const { return side + gap; }
    double right_at() const { return side + gap + card + gap; }
    double width() const { return right_at() + side; }
};

/// How far words stand from the left side of a card of this shape.
double inset_of(Shape shape) { return shape == Shape::object ? 22 : 14; }

double height_of(const Neighbour& neighbour) {
    const double rows = static_cast<double>(std::max<std::size_t>(1, neighbour.ties.size()));
    return rows * pitch + (neighbour.shape == Shape::bundle ? stack_height : 0);
}

double height_of(const std::vector<Neighbour>& neighbours) {
    double height = 0;
    for (const Neighbour& neighbour : neighbours) height += height_of(neighbour);
    return height;
}

struct Sized {
    std::vector<std::string> lines;  ///< name first, then the word, then what changed
    double height = 0, inset = 0;
};

Sized size_card(const ChangeCard& card, const Columns& columns) {
    Sized sized;
    sized.inset = inset_of(card.shape);
    const double inner = columns.card - 2 * sized.inset;
    sized.lines = {cut_in_middle(card.name, name_size, inner), cut_in_middle(card.word, row_size, inner - 16)};
    for (const std::string& line : card.lines) {
        std::vector<std::string> parts = broken(line, row_size, inner);
        constexpr std::size_t most_parts = 3;
        if (parts.size() > most_parts) {
            parts[most_parts - 1] = cut_in_middle(parts[most_parts - 1] + " \u2026 " + parts.back(), row_size, inner);
            parts.resize(most_parts);
        }
        sized.lines.insert(sized.lines.end(), parts.begin(), parts.end());
    }
    const double words = 2 * padding + 4 + line_gap * static_cast<double>(sized.lines.size());
    sized.height = std::max({box_height, words, height_of(card.needs), height_of(card.needed_by)});
    return sized;
}

struct PageWriter {
    Room room;
    Columns columns{room};
    std::vector<Sheet> sheets{};
    std::vector<Row> shown{};  ///< of the last sheet
    bool seen[4]{};
    bool seen_added_tie = false, seen_removed_tie = false, seen_switched_tie = false, seen_name_alone = false;
    double y = 0;

    Scene& scene() { return sheets.back().scene; }

    void begin_page() {
        finish_page();
        sheets.emplace_back();
        shown.clear();
        std::fill(std::begin(seen), std::end(seen), false);
        seen_added_tie = seen_removed_tie = seen_switched_tie = seen_name_alone = false;
        scene().add(label_at(0, 2, "needs", Tone::quiet, true));
        scene().add(label_at(columns.card_at(), 2, "what changed", Tone::quiet, true));
        scene().add(label_at(columns.right_at(), 2, "is needed by", Tone::quiet, true));
        y = head_height;
    }

    void finish_page() {
        if (sheets.empty()) return;
        fit_scene(scene(), room);
        add_legend(sheets.back());
    }

    /// Room for something of that height below a title; on a new page, where there is none, the title is said again.
    void make_room(double height, const std::string& title, bool& is_titled) {
        const double title_takes = is_titled ? 0 : title_height;
        if (sheets.empty() || y + title_takes + height > room.height - 2) {
            begin_page();
            write_title(title + (is_titled ? " (continued)" : ""));
        } else if (!is_titled) {
            write_title(title);
        }
        is_titled = true;
    }

    void write_title(const std::string& title) {
        Label label = label_at(0, y + 4, cut_in_middle(title, row_size, columns.width()), Tone::ink, true);
        scene().backdrops.push_back({{0, y + 2, columns.width(), 0.8}, Backdrop::Look::rule, 0, {}, {}});
        scene().add(std::move(label));
        y += title_height;
    }

    void write_group(const ChangeGroup& group) {
        const std::string title = group.name.empty() ? "no group" : "group " + isolated(drawable(group.name));
        bool is_titled = false;
        for (const ChangeCard& card : group.cards) {
            const Sized sized = size_card(card, columns);
            make_room(sized.height + 4, title, is_titled);
            write_card(card, sized);
            y += sized.height + card_gap;
        }
        write_renames(group, title, is_titled);
    }

    void write_card(const ChangeCard& card, const Sized& sized) {
        seen[static_cast<std::size_t>(card.novelty)] = true;
        Node node;
        node.rect = {columns.card_at(), y + 2, columns.card, sized.height};
        node.box.shape = card.shape;
        node.box.hover = card.hover;
        node.novelty = card.novelty;
        node.about = card.about;
        const std::uint32_t id = scene().add(std::move(node));
        const double x = columns.card_at() + sized.inset;
        double top = y + 2 + padding;
        for (std::size_t i = 0; i < sized.lines.size(); ++i) {
            Label label = label_at(x + (i == 1 ? 14 : 0), top - 1, sized.lines[i], i == 1 ? Tone::quiet : Tone::ink, i < 2);
            if (i == 0) label.size = name_size;
            label.inside = id;
            if (i == 0 && card.novelty == Novelty::removed) strike(label);
            if (i == 1) scene().signs.push_back(novelty_mark(card.novelty, {x + 5, top + 5.5}));
            scene().add(std::move(label));
            top += i == 0 ? line_gap + 2 : line_gap;
        }
        write_neighbours(card.needs, id, true);
        write_neighbours(card.needed_by, id, false);
    }

    /// A line through words, the same with any font.
    void strike(const Label& label) {
        const Rect r = label.extent();
        const double middle = r.y + r.height * 0.55;
        scene().signs.push_back({rect_path({r.x, middle, r.width, 0.8}), {r.x, middle, r.width, 0.8}, Mark::Look::ink, {}, {}});
    }

    void write_neighbours(const std::vector<Neighbour>& neighbours, std::uint32_t card, bool needs) {
        double top = y + 2;
        for (const Neighbour& neighbour : neighbours) {
            const std::uint32_t box = write_neighbour(neighbour, needs ? 0 : columns.right_at(), top);
            for (std::size_t t = 0; t < neighbour.ties.size(); ++t)
                write_tie(neighbour.ties[t], card, box, top + (static_cast<double>(t) + 0.5) * pitch - 1, needs);
            top += height_of(neighbour);
        }
    }

    std::uint32_t write_neighbour(const Neighbour& neighbour, double x, double top) {
        Node node;
        node.box.shape = neighbour.shape;
        node.box.hover = neighbour.hover;
        node.rect = {x, top + 1, columns.side, height_of(neighbour) - (pitch - small_height)};
        node.about = neighbour.about;
        node.novelty = neighbour.novelty;
        node.faint = neighbour.novelty == Novelty::same;
        seen[static_cast<std::size_t>(neighbour.novelty)] = true;
        Rect front = node.rect;
        if (neighbour.shape == Shape::bundle) front.y += stack_height, front.height -= stack_height, front.width -= stack_height;
        const bool has_double_edge = neighbour.shape == Shape::deform || neighbour.shape == Shape::control_deform;
        const std::uint32_t id = scene().add(std::move(node));
        Label name = label_at(front.centre().x, front.centre().y - row_height / 2 + (has_double_edge ? -1.6 : 0.4),
                              cut_in_middle(neighbour.name, row_size, front.width - 30),
                              neighbour.novelty == Novelty::same ? Tone::quiet : Tone::ink);
        name.align = Align::middle;
        name.inside = id;
        if (neighbour.novelty == Novelty::removed) strike(name);
        scene().add(std::move(name));
        return id;
    }

    void write_tie(const Tie& tie, std::uint32_t card, std::uint32_t box, double at, bool needs) {
        const double from = needs ? columns.side : columns.card_at() + columns.card;
        const double to = from + columns.gap;
        Stroke stroke;
        stroke.from = needs ? box : card, stroke.to = needs ? card : box;
        stroke.kind = tie.kind, stroke.inert = tie.inert;
        stroke.faint = tie.how == Tie::How::kept;
        stroke.hover = tie.hover;
        stroke.curve = curve_along({{from - inset(stroke.from, at, true), at}, {to + inset(stroke.to, at, false), at}}, 0, 9);
        scene().strokes.push_back(std::move(stroke));
        seen_added_tie |= tie.how == Tie::How::added, seen_removed_tie |= tie.how == Tie::How::removed;
        seen_switched_tie |= tie.how == Tie::How::switched;
        Label word = label_at(0, at - 7, cut_in_middle(tie.word, row_size, columns.gap - 44),
                              tie.how == Tie::How::kept ? Tone::quiet : Tone::ink, tie.how != Tie::How::kept);
        word.align = Align::middle;
        word.at.x = from + columns.gap / 2 - 3;
        word.plate = true;
        word.hover = tie.hover;
        scene().add(std::move(word));
        if (tie.how == Tie::How::removed) cross(from + 9, at);
    }

    double inset(std::uint32_t node, double at, bool on_right) {
        const Node& of = scene().nodes[node];
        return outline_inset(of.box.shape, of.rect, at, on_right);
    }

    /// A dependence that is gone is crossed out beside its source.
    void cross(double x, double at) {
        const Rect extent{x - 4, at - 4, 8, 8};
        const std::string path = "M" + svg_number(x - 4) + " " + svg_number(at - 4) + "L" + svg_number(x + 4) + " " +
                                 svg_number(at + 4) + "M" + svg_number(x - 4) + " " + svg_number(at + 4) + "L" +
                                 svg_number(x + 4) + " " + svg_number(at - 4);
        scene().signs.push_back({path, extent, Mark::Look::alarm_line, {}, {}});
    }

    void write_renames(const ChangeGroup& group, const std::string& title, bool& is_titled) {
        std::size_t first = 0;
        while (first < group.renames.size()) {
            constexpr double words = 15;
            make_room(words + 2 * row_height, title, is_titled);
            scene().add(label_at(columns.card_at() * 0, y, "renamed, else as before (with how sure it is that they are the same)",
                                 Tone::quiet));
            y += words;
            std::vector<Row> rest(group.renames.begin() + static_cast<std::ptrdiff_t>(first), group.renames.end());
            RowGrid grid = fit_grid(rest, columns.width(), widest_rename);
            const auto fitting = static_cast<std::size_t>(std::max(1.0, std::floor((room.height - 4 - y) / row_height)));
            if (grid.rows > fitting) {
                rest.resize(fitting * grid.columns);
                grid.rows = fitting;
            }
            add_grid(scene(), rest, grid, {0, y});
            shown.insert(shown.end(), rest.begin(), rest.end());
            seen_name_alone = true;
            first += rest.size();
            y += grid.height() + card_gap;
            if (first < group.renames.size()) y = room.height;  // the rest goes to the next page
        }
    }

    void add_legend(Sheet& sheet) {
        const auto box = [&](Novelty novelty, const char* text) {
            if (!seen[static_cast<std::size_t>(novelty)]) return;
            LegendEntry entry;
            Node node;
            node.rect = {3, 4, 38, 16};
            node.novelty = novelty;
            entry.sample.add(std::move(node));
            entry.sample.width = 44, entry.sample.height = 24;
            entry.text = text;
            sheet.legend.push_back(std::move(entry));
        };
        box(Novelty::added, "heavy outline, +: new");
        box(Novelty::removed, "dashed outline, name struck out: gone");
        box(Novelty::changed, "heavy left edge: changed");
        const auto say = [&](bool is_there, const char* text) {
            if (is_there) sheet.legend.push_back({{}, text});
        };
        say(seen[static_cast<std::size_t>(Novelty::same)], "thin and pale: as before");
        say(seen_added_tie && !seen_removed_tie, "\u201c+\u201d on a line: a new dependence");
        say(seen_removed_tie && !seen_added_tie, "crossed line, \u201cgone\u201d: no dependence any more");
        say(seen_added_tie && seen_removed_tie, "\u201c+\u201d on a line: a new dependence; crossed, \u201cgone\u201d: no more");
        say(seen_switched_tie, "\u201con\u201d, \u201coff\u201d on a line: was off, or on, before");
        for (LegendEntry& entry : legend_of(shown, sheet.scene)) sheet.legend.push_back(std::move(entry));
    }
};

}  // namespace

Mark novelty_mark(Novelty novelty, Point m) {
    const Rect extent{m.x - 4.5, m.y - 4.5, 9, 9};
    switch (novelty) {
        case Novelty::added:
            return {rect_path({m.x - 4.5, m.y - 1.2, 9, 2.4}) + rect_path({m.x - 1.2, m.y - 4.5, 2.4, 9}),
                    extent,
                    Mark::Look::ink,
                    {},
                    {}};
        case Novelty::removed:
            return {rect_path({m.x - 4.5, m.y - 1.2, 9, 2.4}), extent, Mark::Look::ink, {}, {}};
        default:
            return {
                polygon_path({{m.x, m.y - 4.5}, {m.x + 4.5, m.y + 4}, {m.x - 4.5, m.y + 4}}), extent, Mark::Look::ink, {}, {}};
    }
}

std::vector<Sheet> draw_change_pages(const ChangePlan& plan, Room room) {
    PageWriter writer{room};
    for (const ChangeGroup& group : plan.groups) writer.write_group(group);
    writer.finish_page();
    return std::move(writer.sheets);
}

}  // namespace ligament
