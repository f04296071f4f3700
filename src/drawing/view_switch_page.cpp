// Where does what a property drives and moves stand on its pages?
#include "view_switch_page.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "shapes.hpp"
#include "style.hpp"
#include "text.hpp"
#include "view_switch_flow.hpp"
#include "words.hpp"

namespace ligament {

namespace {

std::string dashed_path(const Rect& r) {
    constexpr double dash = 6, period = 10;
    std::string data;
    for (double y : {r.y, r.bottom()})
        for (double x = r.x; x < r.right(); x += period)
            data += "M" + svg_number(x) + " " + svg_number(y) + "H" + svg_number(std::min(x + dash, r.right()));
    for (double x : {r.x, r.right()})
        for (double y = r.y; y < r.bottom(); y += period)
            data += "M" + svg_number(x) + " " + svg_number(y) + "V" + svg_number(std::min(y + dash, r.bottom()));
    return data;
}

LegendEntry gap_entry() {
    const Rect rect{1, 2, 38, 14}, edge{4, 5, 10, 8};
    LegendEntry entry;
    entry.sample.width = 40, entry.sample.height = 18;
    entry.sample.marks.push_back({dashed_path(rect), rect, Mark::Look::alarm_line, {}, {}});
    entry.sample.marks.push_back({rect_path(edge), edge, Mark::Look::hatch, {}, {}});
    entry.text = "gap: a bone of a run that is left out";
    return entry;
}

/// The scene of one sheet while it is drawn.
struct SwitchPage {
    const Subject& subject;
    const SwitchPlan& plan;
    Room room;
    const SwitchPlaces& at;
    Scene& scene;
    std::vector<Row> shown;
    std::uint32_t property = none;  ///< its node
    bool has_gaps = false;

    void head(double x, const std::string& words) { scene.add(label_at(x, 2, words, Tone::quiet, true)); }

    // The property.

    void draw_property() {
        const Property& of = subject.rig.properties[plan.property];
        Node node;
        node.box.shape = Shape::property;
        node.box.name = cut_in_middle(drawable(of.name), name_size, property_width - 34);
        node.box.word = of.is_driven() ? "driven property" : is_switch() ? "switch" : "property";
        node.box.hover = hover_of(subject.rig, subject.dependencies, {VertexKind::property, plan.property, 0}, nullptr);
        const Size size = size_of(node.box);
        node.rect = {at.property, head_height + target_height / 2 - size.height / 2, size.width, size.height};
        node.about = {About::Kind::property, plan.property};
        property = scene.add(std::move(node));
        double y = head_height + size.height + 2;
        if (of.on != none) {
            scene.add(label_at(at.property, y, "on", Tone::quiet));
            Row row = plain_row_of(subject, of.on);
            shown.push_back(row);
            add_row(scene, row, {at.property + 20, y}, property_width - 20);
            y += row_height;
        }
        for (const std::string& line : stops_text(of)) {
            scene.add(label_at(at.property, y, cut_in_middle(line, row_size, property_width), Tone::ink));
            y += row_height;
        }
    }

    bool is_switch() const {
        const std::vector<Switch>& all = subject.facts.switches.switches;
        return std::any_of(all.begin(), all.end(), [&](const Switch& of) { return of.property == plan.property; });
    }

    static std::string number_text(double value) {
        char buffer[32];
        return std::string(buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr);
    }

    std::vector<std::string> stops_text(const Property& of) const {
        constexpr std::size_t most_stops = 16;
        std::vector<std::string> lines;
        if (!of.is_driven()) lines.push_back("default " + number_text(of.initial));
        if (of.min || of.max)
            lines.push_back((of.min ? "from " + number_text(*of.min) : "") + (of.min && of.max ? " " : "") +
                            (of.max ? "to " + number_text(*of.max) : ""));
        for (std::size_t i = 0; i < of.stops.size() && i < most_stops; ++i)
            lines.push_back("stop " + isolated(drawable(of.stops[i].first)) + " = " + number_text(of.stops[i].second) +
                            (of.stops[i].second == of.initial ? " (default)" : ""));
        if (of.stops.size() > most_stops) lines.push_back("and " + std::to_string(of.stops.size() - most_stops) + " more stops");
        return lines;
    }

    // What it drives.

    void draw_block(const DriveBlock& block) {
        const DriveCard& card = plan.cards[block.card];
        const std::uint32_t node = draw_card(card, block);
        trunk_of_cards.to = block.y + target_height / 2;
        line({property, node}, {at.formula - trunk_gap / 2, trunk_of_cards.from}, {at.formula, trunk_of_cards.to}, card.hover,
             true);
        Trunk trunk{block.y + target_height / 2, 0};
        for (std::size_t i = block.from; i < block.to; ++i) {
            const double y = block.y + static_cast<double>(i - block.from) * target_pitch;
            const std::uint32_t target = draw_target(card.targets[i], y);
            if (target == none) continue;  // nothing drives a gap
            trunk.to = y + target_height / 2;
            line({node, target}, {at.target - trunk_gap / 2, trunk.from}, {at.target, trunk.to}, card.targets[i].hover, false);
        }
        if (trunk.to > trunk.from) draw_trunk(node, at.target - trunk_gap / 2, trunk, card.hover);
    }

    /// The upright of a comb: all lines to what is below each other share it.
    struct Trunk {
        double from = 0, to = 0;
    };
    Trunk trunk_of_cards{head_height + target_height / 2, 0};

    /// Straight across where both ends are on one height; else only the branch from the trunk, which is drawn once.
    void line(std::pair<std::uint32_t, std::uint32_t> ends, Point trunk, Point tip, const std::string& hover, bool headless) {
        Stroke stroke;
        stroke.to = ends.second;
        stroke.kind = EdgeKind::driver;
        stroke.headless = headless;
        stroke.hover = hover;
        std::vector<Point> corners{{trunk.x, tip.y}, tip};
        if (std::abs(trunk.y - tip.y) < 0.5) {
            stroke.from = ends.first;
            corners.front().x = scene.nodes[ends.first].rect.right();
        }
        stroke.curve = curve_along(corners, 0, headless ? 0 : 9);
        scene.strokes.push_back(std::move(stroke));
    }

    void draw_trunk(std::uint32_t from, double x, const Trunk& trunk, const std::string& hover) {
        Stroke stroke;
        stroke.from = from;
        stroke.kind = EdgeKind::driver;
        stroke.headless = true;
        stroke.hover = hover;
        stroke.curve = curve_along({{scene.nodes[from].rect.right(), trunk.from}, {x, trunk.from}, {x, trunk.to}}, 0, 0);
        scene.strokes.push_back(std::move(stroke));
    }

    void finish_cards() {
        if (trunk_of_cards.to > trunk_of_cards.from) draw_trunk(property, at.formula - trunk_gap / 2, trunk_of_cards, {});
    }

    std::uint32_t draw_card(const DriveCard& card, const DriveBlock& block) {
        Node node;
        node.box.shape = Shape::group;
        node.box.hover = card.hover;
        node.rect = {at.formula, block.y, at.formula_width, card_height(card, at)};
        const std::uint32_t id = scene.add(std::move(node));
        const double inner = at.formula_width - 2 * card_padding;
        std::vector<std::string> lines = broken(card.formula, row_size, inner);
        if (lines.size() > 3) lines[2] = cut_in_middle(lines[2] + " \u2026 " + lines.back(), row_size, inner), lines.resize(3);
        double y = block.y + card_padding;
        auto write = [&](const std::string& words, Tone tone, bool bold) {
            Label label = label_at(at.formula + card_padding, y - 1, words, tone, bold);
            label.inside = id;
            scene.add(std::move(label));
            y += line_height;
        };
        for (const std::string& line : lines) write(line, Tone::ink, true);
        const std::size_t inputs = card.inputs.size();
        for (std::size_t i = 0; i < inputs && i < 4; ++i) {
            const bool is_rest = i == 3 && inputs > 4;
            write(is_rest ? "and " + std::to_string(inputs - 3) + " more inputs" : cut_in_middle(card.inputs[i], row_size, inner),
                  Tone::quiet, false);
        }
        return id;
    }

    /// Its node, or none for a gap.
    std::uint32_t draw_target(const DriveTarget& target, double y) {
        Label words = label_at(at.words, y + 3, cut_in_middle(target.words, row_size, at.words_width), Tone::quiet);
        words.hover = target.words;
        if (target.kind == DriveTarget::Kind::gap) {
            words.tone = Tone::alarm;
            scene.add(std::move(words));
            draw_gap(target, y);
            return none;
        }
        scene.add(std::move(words));
        Node node;
        node.rect = {at.target, y, at.target_width, target_height};
        node.box.hover = target.hover;
        const bool is_bone = target.kind == DriveTarget::Kind::bone;
        if (is_bone)
            node.box.shape = role_shape(subject.rig.bones[target.element]), node.about = {About::Kind::bone, target.element};
        if (target.kind == DriveTarget::Kind::property)
            node.box.shape = Shape::property, node.about = {About::Kind::property, target.element};
        if (target.kind == DriveTarget::Kind::folded) {
            node.box.shape = Shape::bundle, node.about = {About::Kind::group, target.element};
            node.rect.y -= 3, node.rect.height += 3;
        }
        const std::uint32_t id = scene.add(std::move(node));
        Label name =
            label_at(at.target + at.target_width / 2, y + 2.4, cut_in_middle(target.name, row_size, at.target_width - 26));
        name.align = Align::middle;
        name.inside = id;
        scene.add(std::move(name));
        return id;
    }

    /// An empty place in a run: dashed, hatched at its left, with the word and the bone that is left out.
    void draw_gap(const DriveTarget& target, double y) {
        has_gaps = true;
        const Rect rect{at.target + 1, y + 1, at.target_width - 2, target_height - 2};
        scene.marks.push_back({dashed_path(rect), rect, Mark::Look::alarm_line, {}, {}});
        const Rect edge{rect.x + 3, rect.y + 3, 12, rect.height - 6};
        scene.marks.push_back({rect_path(edge), edge, Mark::Look::hatch, {}, {}});
        const std::string word = "gap ";
        Label label =
            label_at(rect.x + 20, y + 2.4,
                     word + cut_in_middle(target.name, row_size, rect.width - 24 - width_of(word, row_size)), Tone::alarm, true);
        label.hover = target.hover;
        label.about = {About::Kind::bone, target.element};
        scene.add(std::move(label));
    }

    // What moves.

    void draw_moved(const MovedCard& card) {
        const MovedGroup& group = plan.moved[card.group];
        const std::string& name = subject.groups[group.group];
        scene.backdrops.push_back({{at.moved, card.y, at.moved_width, card.height()}, Backdrop::Look::frame, 4, {}, {}});
        const std::string count =
            ": " + number_of(group.bones.size(), "bone") + ", " + std::to_string(group.deform.size()) + " deform";
        const double inner = at.moved_width - 2 * card_padding;
        Label title = label_at(
            at.moved + card_padding, card.y + 3,
            cut_in_middle(name.empty() ? "no group" : drawable(name), row_size, inner - width_of(count, row_size)) + count,
            Tone::ink, true);
        title.about = {About::Kind::group, group.group};
        title.hover = moved_hover(group);
        scene.add(std::move(title));
        const double y = card.y + line_height + 6;
        shown.insert(shown.end(), card.rows.begin(), card.rows.end());
        add_grid(scene, card.rows, card.grid, {at.moved + card_padding, y});
        if (card.left_out)
            scene.add(label_at(at.moved + card_padding, y + card.grid.height(),
                               (card.rows.empty() ? "" : "and ") +
                                   number_of(card.left_out, card.rows.empty() ? "deform bone" : "more deform bone"),
                               Tone::quiet));
    }

    std::string moved_hover(const MovedGroup& group) const {
        constexpr std::size_t most_told = 40;
        std::string text = number_of(group.bones.size(), "bone") + " moved";
        for (std::size_t i = 0; i < group.bones.size() && i < most_told; ++i)
            text += "\n" + isolated(drawable(subject.rig.bones[group.bones[i]].name));
        return group.bones.size() > most_told ? text + "\nand " + std::to_string(group.bones.size() - most_told) + " more" : text;
    }

    /// From what is driven to what moves.
    void draw_bracket(double top, double bottom) {
        const double x = at.bracket, middle = std::max(top + 8, head_height + 14);
        scene.marks.push_back({"M" + svg_number(x) + " " + svg_number(top) + "H" + svg_number(x + 6) + "V" + svg_number(bottom) +
                                   "H" + svg_number(x),
                               {x, top, 6, bottom - top},
                               Mark::Look::line,
                               {},
                               {}});
        scene.marks.push_back(moves_mark({x + 24, middle}));
    }
};

}  // namespace

std::vector<Sheet> draw_switch_pages(const Subject& subject, const SwitchPlan& plan, Room room) {
    const SwitchPlaces at = places_for(subject, plan, room);
    const std::vector<std::vector<DriveBlock>> blocks = flow_blocks(plan, at, room.height);
    const std::vector<std::vector<MovedCard>> moved = best_moved(subject, plan, at.moved_width, room.height, blocks.size());
    std::vector<Sheet> sheets(std::max(blocks.size(), moved.size()));
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        SwitchPage page{subject, plan, room, at, sheets[i].scene, {}};
        page.draw_property();
        double bottom = 0;
        if (i < blocks.size())
            for (const DriveBlock& block : blocks[i]) {
                page.draw_block(block);
                bottom = block.y + height_of(plan.cards[block.card], block, at) - block_gap;
            }
        if (i < moved.size())
            for (const MovedCard& card : moved[i]) page.draw_moved(card);
        page.head(at.property, "property");
        if (i < blocks.size() && !blocks[i].empty()) {
            page.head(at.formula, "through drivers");
            page.finish_cards();
            page.head(at.target, target_head);
            page.head(at.words, cut_in_middle(words_head(plan), row_size, at.words_width));
        }
        if (!plan.moved.empty()) page.head(at.moved, i < moved.size() ? "moves" : "moves: on a page before");
        if (i < moved.size() && !moved[i].empty() && bottom > 0) page.draw_bracket(head_height, bottom);
        fit_scene(sheets[i].scene, room);
        sheets[i].legend = legend_of(page.shown, sheets[i].scene);
        if (page.has_gaps) sheets[i].legend.push_back(gap_entry());
    }
    return sheets;
}

}  // namespace ligament
