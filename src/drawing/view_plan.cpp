// How is the rig built? The view of groups.
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>

#include "legend.hpp"
#include "style.hpp"
#include "text.hpp"
#include "view_plan_cards.hpp"
#include "view_plan_table.hpp"
#include "wires.hpp"
#include "words.hpp"

namespace ligament {

namespace {

/// From more groups than this on, some share a card.
constexpr std::size_t most_group_cards = 60;

/// How much a page that is not full may be enlarged.
constexpr double largest_scale = 1.5;

/// How much a plan says, from most to least: the first that fits is taken.
struct Detail {
    std::size_t needs;     // rows of a card
    std::size_t switches;  // likewise
    bool lanes;            // wires of one source have a trunk for each kind, not one for all
    bool rest_wires;       // wires to rows that stand for several groups
    bool wires;
    bool roomy;
    double pitch, channel, entry;  // distances
};
constexpr std::array<Detail, 12> details{{{6, 3, true, true, true, true, 6, 30, 15},
                                          {6, 3, false, true, true, true, 6, 24, 15},
                                          {6, 2, false, true, true, false, 5, 18, 14},
                                          {6, 1, false, true, true, false, 4.5, 14, 12},
                                          {4, 1, false, true, true, false, 4.5, 14, 12},
                                          {3, 1, false, true, true, false, 4.5, 14, 12},
                                          {4, 1, false, false, true, false, 4.5, 14, 12},
                                          {3, 1, false, false, true, false, 4.5, 14, 12},
                                          {2, 1, false, false, true, false, 4, 14, 12},
                                          {1, 1, false, false, true, false, 4, 14, 12},
                                          {3, 1, false, false, false, false, 4.5, 12, 12},
                                          {1, 1, false, false, false, false, 4.5, 10, 12}}};

CardStyle style_of(const Detail& detail) { return {detail.needs, detail.switches, true, !detail.roomy}; }

struct Layouting {
    const GroupGraph& graph;
    const Detail& detail;
    Room room;
    std::vector<Card> cards;
    std::vector<std::uint32_t> level;
    std::vector<double> least;  // by card: how narrow it may be
    double base = 0;            // how narrow half of the cards may be: where one needs more, its column is wider

    Layouting(const Subject& subject, const GroupGraph& of, const Detail& told, Room in, const CardStyle& style)
        : graph(of), detail(told), room(in), cards(make_cards(subject, of, style)), level(find_card_levels(of)) {
        for (const Card& card : cards) least.push_back(least_width(card));
        std::vector<double> sorted = least;
        std::sort(sorted.begin(), sorted.end());
        base = sorted[sorted.size() / 2];
    }
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
    rules.clearance = detail.roomy ? 9 : 5;
    rules.entry = detail.entry;
    rules.least_channel = detail.channel;
    rules.least_gap = detail.roomy ? 28 : 14;
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
        boxes[c].width = std::max(card_width, of.least[c]), boxes[c].height = height_of(card);
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

/// How wide cards may and want to be in a table that is `tight` with cards as narrow as they may be; nothing where that does not
/// fit.
std::optional<Trial> judge(const Layouting& of, CardTable table, const Wiring& tight) {
    if (tight.width > of.room.width || tight.height > of.room.height) return std::nullopt;
    const double columns = table.columns, fixed = tight.width - columns * of.base;
    const double most = (of.room.width - fixed) / columns;
    double in_words = of.base, in_letters = of.base;
    for (const Card& card : of.cards) {
        in_words = std::max(in_words, wide_enough(card, true));
        in_letters = std::max(in_letters, wide_enough(card, false));
    }
    Trial trial{std::move(table), style_of(of.detail), 0, 0};
    trial.style.words = most >= in_words;
    trial.card_width = std::floor(std::min(most, trial.style.words ? in_words : in_letters));
    const double scale =
        std::min({largest_scale, of.room.width / (fixed + columns * trial.card_width), of.room.height / tight.height});
    const double cut = std::max(0.0, in_letters - trial.card_width) / in_letters;
    trial.score = scale - (trial.style.words ? 0 : 0.25) - cut;
    return trial;
}

/// Whether a table would fit if no wire wanted more than the least room: quickly told, and no where it is no.
bool could_fit(const Layouting& of, const CardTable& table, const WireRules& rules) {
    std::vector<double> widths(table.columns, 0);
    double height = static_cast<double>(table.rows.size() - 1) * rules.least_channel;
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        double tallest = 0;
        for (std::size_t i = 0; i < table.rows[r].size(); ++i) {
            const std::uint32_t card = table.rows[r][i];
            double& width = widths[table.first_column[r] + i];
            width = std::max({width, of.base, of.least[card]});
            tallest = std::max(tallest, height_of(of.cards[card]));
        }
        height += tallest;
    }
    const double width = std::accumulate(widths.begin(), widths.end(), (table.columns - 1) * rules.least_gap);
    return width <= of.room.width && height <= of.room.height;
}

std::optional<Trial> best_trial(const Layouting& of) {
    constexpr std::uint32_t most_columns = 14;
    constexpr std::array<double, 3> worth{0.35, 0.25, 0};  // what rows of their own are worth to levels, by Rows
    std::optional<Trial> best;
    WireRules rules = rules_of(of.detail);
    rules.few_crossings = false;
    for (std::uint32_t columns = 1; columns <= std::min<std::size_t>(most_columns, of.cards.size()); ++columns)
        for (const Rows how : {Rows::by_level, Rows::packed, Rows::flowing}) {
            CardTable table = table_of(of.graph, of.level, columns, how);
            if (!could_fit(of, table, rules)) continue;
            const Wired tight = wire_up(of, table, of.base, rules);
            std::optional<Trial> trial = judge(of, std::move(table), tight.wiring);
            if (!trial) continue;
            trial->score += worth[static_cast<std::size_t>(how)];
            if (!best || trial->score > best->score + 1e-9) best = std::move(trial);
        }
    return best;
}

/// How hard wires are to follow: as tangle_of of a layout.
double tangle_of(const Wiring& wiring) {
    double length = 0;
    for (const auto& corners : wiring.wires)
        for (std::size_t i = 1; i < corners.size(); ++i)
            length += std::abs(corners[i].x - corners[i - 1].x) + std::abs(corners[i].y - corners[i - 1].y);
    return length + 100 * static_cast<double>(count_crossings(wiring));
}

double scale_of(const Wiring& wiring, Room room) {
    return std::min({largest_scale, room.width / wiring.width, room.height / wiring.height});
}

/// A table with its wires.
struct Arranged {
    CardTable table;
    Wired wired;
    double tangle = 0, scale = 0;
};

/// Swaps cards of a row and level, neighbours first, as long as that makes wires easier to follow and the page no fuller. The
/// number of layouts tried is bounded by the work that each one is.
void untangle(const Layouting& of, double card_width, const WireRules& rules, Arranged& best) {
    constexpr std::size_t work = 12'000, most_tries = 250;
    std::size_t tries = std::min(most_tries, work / std::max<std::size_t>(best.wired.wires.size(), 1));
    const double least_scale = std::max(1.0, best.scale - 0.02);
    for (std::size_t apart = 1, row = 0, at = 0; tries > 0 && apart < best.table.columns;) {
        const std::vector<std::uint32_t>& cards = best.table.rows[row];
        if (at + apart < cards.size() && of.level[cards[at]] == of.level[cards[at + apart]]) {
            Arranged other{best.table, {}, 0, 0};
            std::swap(other.table.rows[row][at], other.table.rows[row][at + apart]);
            other.wired = wire_up(of, other.table, card_width, rules);
            other.tangle = tangle_of(other.wired.wiring), other.scale = scale_of(other.wired.wiring, of.room);
            --tries;
            if (other.tangle < best.tangle - 1e-6 && other.scale >= least_scale) best = std::move(other);
        }
        if (++at < best.table.rows[row].size()) continue;
        at = 0;
        if (++row < best.table.rows.size()) continue;
        row = 0, ++apart;
    }
}

/// The final layout: of two orders of the cards in their rows the one that is less tangled, made better where that can be; what
/// room is left goes between them.
Wired lay_out(const Layouting& of, const Trial& trial) {
    WireRules rules = rules_of(of.detail);
    Arranged best;
    for (const CardTable& table : {trial.table, in_plain_order(of.graph, of.level, trial.table)}) {
        Wired wired = wire_up(of, table, trial.card_width, rules);
        const double tangle = tangle_of(wired.wiring), scale = scale_of(wired.wiring, of.room);
        if (best.table.rows.empty() || (scale >= 1 && tangle < best.tangle)) best = {table, std::move(wired), tangle, scale};
    }
    untangle(of, trial.card_width, rules, best);
    rules.width = of.room.width / best.scale, rules.height = of.room.height / best.scale;
    return wire_up(of, best.table, trial.card_width, rules);
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
    // where kinds share a trunk the broadest line is seen on it
    std::stable_sort(scene.strokes.begin(), scene.strokes.end(), [](const Stroke& a, const Stroke& b) {
        return line_styles[static_cast<std::size_t>(a.kind)].width < line_styles[static_cast<std::size_t>(b.kind)].width;
    });
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
    const std::array<std::pair<std::size_t, std::string_view>, 4> roles{
        {{all.control, "control"}, {all.mechanism, "mechanism"}, {all.deform, "deform"}, {all.both, "control + deform"}}};
    for (std::size_t r = 0; r < roles.size(); ++r)  // in the order of the first looks of a mark
        if (roles[r].first > 0 && (!style.words || r == 3))
            legend.push_back(sign_entry(static_cast<Mark::Look>(r), std::string(roles[r].second) + " bones"));
    if (!of.graph.needs.empty())
        legend.push_back({{},
                          of.detail.wires ? "lower rows: what it needs, counted; a wire is drawn as its commonest kind"
                                          : "lower rows: what it needs, counted"});
    std::string letters;
    for (std::size_t k = 0; k < edge_kind_count && !style.words; ++k)
        if (every.live[k]) {
            const auto [letter, word] = letter_of(static_cast<EdgeKind>(k));
            letters += (letters.empty() ? "" : ", ") + std::string(letter) + " " + std::string(word);
        }
    if (!letters.empty()) legend.push_back({{}, letters + "; number alone: all"});
    const bool is_explained = of.detail.wires && std::any_of(of.graph.needs.begin(), of.graph.needs.end(),
                                                             [](const GroupNeed& need) { return need.live_count() == 0; });
    if (every.inert_count() && !is_explained) legend.push_back({{}, "off: disabled or of weight 0"});
    return legend;
}

/// What is not shown as it is, in words.
std::string left_out_of(const Layouting& of) {
    const bool rest = std::any_of(of.cards.begin(), of.cards.end(), [](const Card& card) {
        return std::any_of(card.needs.begin(), card.needs.end(), [](const NeedRow& row) { return row.needs.size() > 1; });
    });
    std::string text;
    if (rest)
        text = "a card names the " + number_of(of.detail.needs, "group") + " that it needs most, the others in one row" +
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
        for (const Detail& detail : details) {
            fitted.detail = &detail;
            fitted.trial = best_trial({subject, fitted.groups.graph, detail, room, style_of(detail)});
            if (fitted.trial) return fitted;
        }
    }
    return fitted;
}

Sheet make_sheet(const Subject& subject, const GroupGraph& whole, Room room) {
    const Fitted fitted = fit(subject, whole, room);
    Sheet sheet;
    sheet.name = "plan";
    sheet.title = drawable(subject.rig.name) + ": plan of its groups";
    sheet.subtitle = subtitle_of(subject.rig, subject.dependencies, subject.facts, subject.folded);
    sheet.in_state = !subject.facts.is_default_state;
    if (!fitted.trial) {
        sheet.subtitle.push_back("not drawn: the page is too small for a plan of this rig");
        return sheet;
    }
    const GroupGraph& graph = fitted.groups.graph;
    const Layouting layouting{subject, graph, *fitted.detail, room, fitted.trial->style};
    const Wired wired = lay_out(layouting, *fitted.trial);
    sheet.scene = draw_scene(subject, layouting, *fitted.trial, wired);
    sheet.legend = legend_of(layouting, fitted.trial->style);
    sheet.cramped = !fitted.detail->roomy || graph.cards.size() < std::min(most_group_cards, subject.groups.size());
    std::string folded = fitted.groups.rule;
    if (const std::string left_out = left_out_of(layouting); !left_out.empty()) folded += (folded.empty() ? "" : "; ") + left_out;
    if (!folded.empty()) sheet.subtitle.push_back(folded);
    return sheet;
}

/// How much more a sheet's header and legend take than rooms leave for them.
double excess_of(const Sheet& sheet, Room room) {
    constexpr double legend = 54, line_height = 15, subtitle_size = 10.5, wrapped = 0.92;
    constexpr std::size_t lines_granted = 3;
    double lines = 0;
    for (const std::string& line : sheet.subtitle)
        lines += std::max(1.0, std::ceil(width_of(line, subtitle_size) / (room.width * wrapped)));
    return std::max(0.0, draw_legend(sheet, room.width).height - legend) + std::max(0.0, lines - lines_granted) * line_height;
}

}  // namespace

std::vector<Sheet> plan_of_groups(const Subject& subject, std::uint32_t, Room room) {
    const GroupGraph whole = build_group_graph(subject);
    double taken = 0;
    for (int attempt = 0;; ++attempt) {
        Sheet sheet = make_sheet(subject, whole, {room.width, room.height - taken});
        const double excess = excess_of(sheet, room);
        if (excess <= taken || attempt == 3) return {std::move(sheet)};
        taken = excess;
    }
}

}  // namespace ligament
