// How is the rig built? The view of groups.
#include <algorithm>
#include <cmath>
#include <optional>

#include "text.hpp"
#include "view_plan_cards.hpp"
#include "view_plan_table.hpp"
#include "wires.hpp"
#include "words.hpp"

namespace ligament {

namespace {

/// From more groups than this on, some share a card.
constexpr std::size_t most_group_cards = 60;

/// How much a plan says, from most to least: the first that fits is taken.
struct Detail {
    std::size_t needs;     // rows of a card
    std::size_t switches;  // likewise
    bool lanes;            // wires of one source have a trunk for each kind, not one for all
    bool rest_wires;       // wires to rows that stand for several groups
    bool wires;
    double pitch, channel;  // distances
};
constexpr std::array<Detail, 11> details{{{6, 3, true, true, true, 6, 30},
                                          {6, 3, false, true, true, 6, 24},
                                          {6, 2, false, true, true, 5, 18},
                                          {5, 2, false, true, true, 5, 18},
                                          {4, 2, false, true, true, 4.5, 16},
                                          {3, 1, false, true, true, 4.5, 16},
                                          {2, 1, false, true, true, 4.5, 14},
                                          {3, 1, false, false, true, 4.5, 14},
                                          {2, 1, false, false, true, 4.5, 14},
                                          {4, 1, false, false, false, 4.5, 12},
                                          {1, 1, false, false, false, 4.5, 10}}};

struct Layouting {
    const GroupGraph& graph;
    const Detail& detail;
    Room room;
    std::vector<Card> cards;
    std::vector<std::uint32_t> level;
};

/// One arrangement of the cards, and how good it is.
struct Trial {
    CardTable table;
    CardStyle style;
    double card_width = 0;
    double score = 0;
};

struct Wired {
    Wiring wiring;
    std::vector<Wire> wires;
    std::vector<std::uint32_t> need;  // by wire
    std::vector<std::uint32_t> row;   // by wire
};

std::uint32_t lane_of(const GroupNeed& need) {
    return need.cycle ? 20 : static_cast<std::uint32_t>(need.kind()) + (need.live_count() == 0 ? 10 : 0);
}

WireRules rules_of(const Detail& detail) {
    WireRules rules;
    rules.pitch = detail.pitch;
    rules.clearance = detail.pitch + 3;
    rules.least_channel = detail.channel;
    rules.least_gap = detail.channel > 20 ? 28 : 16;
    return rules;
}

Wired wire_up(const Layouting& of, const CardTable& table, double card_width, const WireRules& rules) {
    std::vector<WiredBox> boxes(of.cards.size());
    for (std::uint32_t r = 0; r < table.rows.size(); ++r)
        for (std::uint32_t i = 0; i < table.rows[r].size(); ++i) {
            WiredBox& box = boxes[table.rows[r][i]];
            box.row = r, box.column = table.first_column[r] + i;
        }
    Wired wired;
    for (std::uint32_t c = 0; c < of.cards.size(); ++c) {
        const Card& card = of.cards[c];
        boxes[c].width = card_width, boxes[c].height = height_of(card);
        for (std::uint32_t row = 0; row < card.needs.size(); ++row) {
            boxes[c].inlets.push_back(inlet_of(card, row));
            const auto& needs = card.needs[row].needs;
            if (!of.detail.wires || (needs.size() > 1 && !of.detail.rest_wires)) continue;
            for (std::uint32_t n : needs) {
                wired.wires.push_back({of.graph.needs[n].from, c, row, of.detail.lanes ? lane_of(of.graph.needs[n]) : 0});
                wired.need.push_back(n), wired.row.push_back(row);
            }
        }
    }
    wired.wiring = lay_wires(boxes, wired.wires, rules);
    return wired;
}

/// How wide cards may and want to be in a table whose gaps take `gaps`; nothing where they do not fit.
std::optional<Trial> judge(const Layouting& of, CardTable table, const Wiring& tight) {
    constexpr double largest = 1.5;  // enlargement of a page that is not full
    const double columns = table.columns;
    const double gaps = tight.width - columns * least_card_width;
    const double most = (of.room.width - gaps) / columns;
    if (most < least_card_width || tight.height > of.room.height) return std::nullopt;
    double in_words = least_card_width, in_letters = least_card_width;
    for (const Card& card : of.cards) {
        in_words = std::max(in_words, wide_enough(card, true));
        in_letters = std::max(in_letters, wide_enough(card, false));
    }
    Trial trial{std::move(table), {of.detail.needs, of.detail.switches, most >= in_words}, 0, 0};
    trial.card_width = std::floor(std::min(most, trial.style.words ? in_words : in_letters));
    const double scale = std::min({largest, of.room.width / (gaps + columns * trial.card_width), of.room.height / tight.height});
    const double cut = std::max(0.0, in_letters - trial.card_width) / in_letters;
    trial.score = scale - (trial.style.words ? 0 : 0.25) - cut;
    return trial;
}

std::optional<Trial> best_trial(const Layouting& of) {
    constexpr std::uint32_t most_columns = 14;
    constexpr double for_levels = 0.12;  // what it is worth that each level has rows of its own
    std::optional<Trial> best;
    WireRules rules = rules_of(of.detail);
    rules.few_crossings = false;
    double lowest = 1e9;
    for (const Card& card : of.cards) lowest = std::min(lowest, height_of(card));
    for (std::uint32_t columns = 1; columns <= std::min<std::size_t>(most_columns, of.cards.size()); ++columns)
        for (const bool by_level : {true, false}) {
            const double rows = static_cast<double>(rows_of(of.level, columns, by_level));
            if (rows * lowest + (rows - 1) * rules.least_channel > of.room.height) continue;
            if (columns * least_card_width + (columns - 1) * rules.least_gap > of.room.width) continue;
            CardTable table = table_of(of.graph, of.level, columns, by_level);
            const Wired tight = wire_up(of, table, least_card_width, rules);
            std::optional<Trial> trial = judge(of, std::move(table), tight.wiring);
            if (!trial) continue;
            if (by_level) trial->score += for_levels;
            if (!best || trial->score > best->score + 1e-9) best = std::move(trial);
        }
    return best;
}

/// The final layout: of two orders of the cards in their rows the one with fewer crossings; what room is left goes between them.
Wired lay_out(const Layouting& of, const Trial& trial) {
    WireRules rules = rules_of(of.detail);
    Wired best = wire_up(of, trial.table, trial.card_width, rules);
    const CardTable plain = in_plain_order(of.graph, trial.table);
    const Wired other = wire_up(of, plain, trial.card_width, rules);
    const bool fits = other.wiring.width <= of.room.width && other.wiring.height <= of.room.height;
    const bool is_plain = fits && count_crossings(other.wiring) < count_crossings(best.wiring);
    if (is_plain) best = other;
    const double scale = std::min({1.5, of.room.width / best.wiring.width, of.room.height / best.wiring.height});
    rules.width = of.room.width / scale, rules.height = of.room.height / scale;
    return wire_up(of, is_plain ? plain : trial.table, trial.card_width, rules);
}

Scene draw_scene(const Subject& subject, const Layouting& of, const Trial& trial, const Wired& wired) {
    Scene scene;
    scene.width = wired.wiring.width, scene.height = wired.wiring.height;
    for (std::size_t c = 0; c < of.cards.size(); ++c) add_card(scene, of.cards[c], wired.wiring.boxes[c], trial.style);
    for (std::size_t w = 0; w < wired.wires.size(); ++w) {
        const GroupNeed& need = of.graph.needs[wired.need[w]];
        std::vector<Point> corners = wired.wiring.wires[w];
        corners.back().x += indent_of_inlet(of.cards[need.to], wired.row[w]);
        Stroke stroke;
        stroke.curve = curve_along(corners, 5, 9);
        stroke.from = need.from, stroke.to = need.to;
        stroke.kind = need.kind(), stroke.inert = need.live_count() == 0, stroke.cycle = need.cycle;
        stroke.hover = hover_of_need(subject, of.graph, need);
        scene.strokes.push_back(std::move(stroke));
    }
    return scene;
}

LegendEntry sign_entry(Mark::Look look, const std::string& text) {
    LegendEntry entry;
    entry.sample.signs.push_back(role_sign(look, {4, 8}));
    entry.sample.width = 16, entry.sample.height = 24;
    entry.text = text;
    return entry;
}

/// What cards of this sheet have that does not explain itself.
std::vector<LegendEntry> legend_of(const Layouting& of, const CardStyle& style) {
    std::vector<LegendEntry> legend;
    GroupTally all;
    GroupNeed every;
    for (const GroupCard& card : of.graph.cards) all.add(card.tally);
    for (const GroupNeed& need : of.graph.needs) every.add(need);
    if (all.control) legend.push_back(sign_entry(Mark::Look::control, "control bones"));
    if (all.mechanism) legend.push_back(sign_entry(Mark::Look::mechanism, "mechanism bones"));
    if (all.deform) legend.push_back(sign_entry(Mark::Look::deform, "deform bones"));
    if (all.both) legend.push_back(sign_entry(Mark::Look::both, "control + deform bones"));
    if (!of.graph.needs.empty())
        legend.push_back({{},
                          of.detail.wires
                              ? "lower rows: what a group needs, counted by kind; the wire from there enters at the row"
                              : "lower rows: what a group needs, counted by kind"});
    std::string letters;
    for (std::size_t k = 0; k < edge_kind_count && !style.words; ++k)
        if (every.live[k]) {
            const auto [letter, word] = letter_of(static_cast<EdgeKind>(k));
            letters += (letters.empty() ? "" : ", ") + std::string(letter) + " " + std::string(word);
        }
    if (!letters.empty()) legend.push_back({{}, letters + "; a number alone: all kinds"});
    if (every.inert_count()) legend.push_back({{}, "off: disabled or of weight 0"});
    return legend;
}

/// What is not shown as it is, in words.
std::string left_out_of(const Layouting& of) {
    const bool rest = std::any_of(of.cards.begin(), of.cards.end(), [](const Card& card) {
        return std::any_of(card.needs.begin(), card.needs.end(), [](const NeedRow& row) { return row.needs.size() > 1; });
    });
    std::string text;
    if (rest)
        text = "a card names the " + std::to_string(of.detail.needs) + " groups that it needs most, the others in one row" +
               (of.detail.wires && !of.detail.rest_wires ? " without wires" : "");
    if (!of.detail.wires && !of.graph.needs.empty())
        text += std::string(text.empty() ? "" : "; ") + "wires are left out: too many for this page";
    return text;
}

struct Fitted {
    FoldedGroups groups;
    const Detail* detail = nullptr;
    std::optional<Trial> trial;
};

/// The most telling plan that fits: all details, then fewer cards.
Fitted fit(const Subject& subject, const GroupGraph& whole, Room room) {
    Fitted fitted;
    for (std::size_t most = most_group_cards; most > 0; most = most * 3 / 4) {
        fitted.groups = fold_groups(subject, whole, most);
        if (most < most_group_cards && fitted.groups.rule.empty()) continue;  // nothing new
        const std::vector<std::uint32_t> level = find_card_levels(fitted.groups.graph);
        for (const Detail& detail : details) {
            const CardStyle style{detail.needs, detail.switches, true};
            const Layouting layouting{fitted.groups.graph, detail, room, make_cards(subject, fitted.groups.graph, style), level};
            fitted.detail = &detail;
            fitted.trial = best_trial(layouting);
            if (fitted.trial) return fitted;
        }
    }
    return fitted;
}

}  // namespace

std::vector<Sheet> plan_of_groups(const Subject& subject, std::uint32_t, Room room) {
    const Fitted fitted = fit(subject, build_group_graph(subject), room);
    Sheet sheet;
    sheet.name = "plan";
    sheet.title = drawable(subject.rig.name) + ": plan of its groups";
    sheet.subtitle = subtitle_of(subject.rig, subject.dependencies, subject.facts, subject.folded);
    sheet.in_state = !subject.facts.is_default_state;
    if (!fitted.trial) return {sheet};
    const GroupGraph& graph = fitted.groups.graph;
    const Layouting layouting{graph, *fitted.detail, room, make_cards(subject, graph, fitted.trial->style),
                              find_card_levels(graph)};
    const Wired wired = lay_out(layouting, *fitted.trial);
    sheet.scene = draw_scene(subject, layouting, *fitted.trial, wired);
    sheet.legend = legend_of(layouting, fitted.trial->style);
    std::string folded = fitted.groups.rule;
    if (const std::string left_out = left_out_of(layouting); !left_out.empty()) folded += (folded.empty() ? "" : "; ") + left_out;
    if (!folded.empty()) sheet.subtitle.push_back(folded);
    return {sheet};
}

}  // namespace ligament
