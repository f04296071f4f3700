// Which words stand on the card of a group and hover over it?
#include <algorithm>
#include <charconv>
#include <tuple>

#include "text.hpp"
#include "view_plan_cards.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr std::size_t most_listed = 40;  // names in a hover

struct KindWord {
    std::string_view letter, word;
};

/// By EdgeKind. Kinds that are told first stand first in `told_order`.
constexpr std::array<KindWord, edge_kind_count> kind_words{
    {{"p", "parent"}, {"c", "constraint"}, {"d", "driver"}, {"s", "solver"}, {"h", "handle"}, {"o", "order"}}};

void add_listed(std::string& text, const std::vector<std::string>& names, const std::string& before) {
    if (names.empty()) return;
    text += "\n" + before;
    if (names.size() > most_listed)
        text += " (showing " + std::to_string(most_listed) + " of " + std::to_string(names.size()) + ")";
    text += ":";
    for (std::size_t i = 0; i < names.size() && i < most_listed; ++i) text += (i ? ", " : " ") + isolated(names[i]);
}

std::string contents_of(const GroupTally& tally) {
    std::string text;
    auto add = [&](std::size_t count, const std::string& words) {
        if (count) text += (text.empty() ? "" : ", ") + words;
    };
    add(tally.control, std::to_string(tally.control) + " control");
    add(tally.mechanism, std::to_string(tally.mechanism) + " mechanism");
    add(tally.deform, std::to_string(tally.deform) + " deform");
    add(tally.both, std::to_string(tally.both) + " control + deform");
    add(tally.solvers, number_of(tally.solvers, "solver"));
    add(tally.properties, number_of(tally.properties, "property"));
    add(tally.objects, number_of(tally.objects, "object"));
    return text.empty() ? "nothing that anything needs" : text;
}

/// What a card without bones is.
std::string kind_of(const GroupCard& card) {
    const bool one = card.tally.objects + card.tally.properties == 1;
    return one ? card.tally.objects ? "object" : "property" : contents_of(card.tally);
}

std::string number_text(double value) {
    char buffer[32];
    return std::string(buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr);
}

/// The names of a switch's stops; of stops without a name the values.
std::string stops_of(const Switch& of) {
    std::string text;
    for (const Stop& stop : of.stops)
        text += (text.empty() ? "" : " | ") + (stop.name.empty() ? number_text(stop.value) : drawable(stop.name));
    return text;
}

void add_switches(const Subject& subject, const CardStyle& style, Card& card) {
    const auto& switches = card.tally.switches;
    const bool fits = switches.size() <= style.most_switches;
    const std::size_t shown = fits ? switches.size() : style.most_switches > 0 ? style.most_switches - 1 : 0;
    std::string all;
    for (std::size_t i = 0; i < switches.size(); ++i) {
        const Switch& of = subject.facts.switches.switches[switches[i]];
        CardLine line;
        line.left = drawable(subject.rig.properties[of.property].name), line.right = stops_of(of);
        line.is_switch = true;
        line.about = {About::Kind::property, of.property};
        line.hover = "switch " + isolated(line.left) + ": " + isolated(line.right) + "\nreaches the weights of " +
                     number_of(of.constraints.size(), "constraint");
        if (i < most_listed) all += (all.empty() ? "" : "\n") + isolated(line.left) + ": " + isolated(line.right);
        if (i < shown) card.lines.push_back(std::move(line));
    }
    if (fits) return;
    if (switches.size() > most_listed)
        all += "\nshowing " + std::to_string(most_listed) + " of " + std::to_string(switches.size());
    CardLine rest;
    rest.left = std::to_string(switches.size() - shown) + (shown ? " more" : " switches"), rest.is_switch = true;
    if (!shown && switches.size() == 1) rest.left = "1 switch";
    rest.hover = "all switches:\n" + all;
    card.lines.push_back(std::move(rest));
}

/// Verdicts: what is wrong, then in quiet what to look at.
void add_verdicts(const GroupTally& tally, const CardStyle& style, Card& card) {
    auto add = [&](std::size_t count, const std::string& words, Tone tone) {
        if (count == 0) return;
        const bool joins = !style.narrow && !card.lines.empty() && card.lines.back().is_verdict && card.lines.back().tone == tone;
        if (!joins) {
            card.lines.emplace_back();
            card.lines.back().tone = tone, card.lines.back().is_verdict = true;
        }
        std::string& text = card.lines.back().left;
        text += (text.empty() ? "" : ", ") + words;
        card.lines.back().hover = text;
    };
    if (tally.cycles.size() == 1)
        add(1, "cycle " + std::to_string(tally.cycles.front()), Tone::alarm);
    else
        add(tally.cycles.size(), number_of(tally.cycles.size(), "cycle"), Tone::alarm);
    add(tally.orphaned, std::to_string(tally.orphaned) + " orphaned", Tone::alarm);
    add(tally.root_only, std::to_string(tally.root_only) + " root-only", Tone::alarm);
    add(tally.worse, std::to_string(tally.worse) + (style.narrow ? " lost" : " lost in a state"), Tone::alarm);
    add(tally.carried, std::to_string(tally.carried) + " carried", Tone::ink);
    add(tally.gaps, number_of(tally.gaps, style.narrow ? "gap" : "switch gap"), Tone::ink);
    if (!tally.cycles.empty()) card.box.badges.push_back({Badge::Kind::cycle, {}});
    if (tally.orphaned + tally.root_only > 0) card.box.badges.push_back({Badge::Kind::unattached, {}});
    if (tally.carried > 0) card.box.badges.push_back({Badge::Kind::carried, {}});
}

std::string hover_of_card(const Subject& subject, const GroupGraph& graph, const GroupCard& card,
                          const std::vector<std::uint32_t>& needs) {
    const bool is_group = card.groups.size() == 1 && !subject.groups[card.groups.front()].empty();
    std::string text = is_group ? "group " + isolated(card.name) : isolated(card.name);
    text += "\n" + contents_of(card.tally) + "\n" + number_of(card.tally.inside, "dependency") + " inside";
    std::vector<std::string> names;
    if (card.groups.size() > 1) {
        for (std::uint32_t g : card.groups)
            names.push_back(subject.groups[g].empty() ? "(in no group)" : drawable(subject.groups[g]));
        add_listed(text, names, number_of(card.groups.size(), "group"));
    }
    names.clear();
    for (ObjectId o : card.objects) names.push_back(drawable(subject.rig.objects[o].name));
    if (names.size() > 1) add_listed(text, names, number_of(names.size(), "object"));
    names.clear();
    for (std::uint32_t n : needs) names.push_back(graph.cards[graph.needs[n].from].name);
    add_listed(text, names, "needs");
    return text;
}

/// Needs of one card that share a row.
NeedRow row_of(const Subject& subject, const GroupGraph& graph, std::vector<std::uint32_t> needs, bool rest) {
    NeedRow row;
    GroupNeed sum;
    for (std::uint32_t n : needs) sum.add(graph.needs[n]);
    row.counts = count_text(sum);
    row.alarm = sum.cycle;
    if (!rest) {
        const GroupNeed& need = graph.needs[needs.front()];
        const GroupCard& from = graph.cards[need.from];
        row.name = from.name;
        row.hover = hover_of_need(subject, graph, need);
        if (from.groups.size() == 1) row.about = {About::Kind::group, from.groups.front()};
    } else {
        row.name = std::to_string(needs.size()) + " more";
        row.hover = row.name + ": " + row.counts.words;
        for (std::uint32_t n : needs)
            row.hover += "\n" + isolated(graph.cards[graph.needs[n].from].name) + "  " + count_text(graph.needs[n]).words;
    }
    row.needs = std::move(needs);
    return row;
}

void add_needs(const Subject& subject, const GroupGraph& graph, const std::vector<std::uint32_t>& needs, const CardStyle& style,
               Card& card) {
    std::vector<std::uint32_t> sorted = needs;
    auto key = [&](std::uint32_t n) {
        const GroupNeed& need = graph.needs[n];
        return std::tuple(!need.cycle, ~need.live_count(), ~need.inert_count());
    };
    std::stable_sort(sorted.begin(), sorted.end(), [&](std::uint32_t a, std::uint32_t b) { return key(a) < key(b); });
    const std::size_t shown = sorted.size() <= style.most_needs + 1 ? sorted.size() : style.most_needs;
    for (std::size_t i = 0; i < shown; ++i) card.needs.push_back(row_of(subject, graph, {sorted[i]}, false));
    if (shown < sorted.size())
        card.needs.push_back(row_of(subject, graph, {sorted.begin() + static_cast<std::ptrdiff_t>(shown), sorted.end()}, true));
}

}  // namespace

std::pair<std::string_view, std::string_view> letter_of(EdgeKind kind) {
    const KindWord& word = kind_words[static_cast<std::size_t>(kind)];
    return {word.letter, word.word};
}

CountText count_text(const GroupNeed& need) {
    std::vector<std::size_t> kinds;
    for (std::size_t k = 0; k < edge_kind_count; ++k)
        if (need.live[k]) kinds.push_back(k);
    std::stable_sort(kinds.begin(), kinds.end(), [&](std::size_t a, std::size_t b) { return need.live[a] > need.live[b]; });
    CountText text;
    for (std::size_t k : kinds) {
        const std::string count = std::to_string(need.live[k]);
        text.words += (text.words.empty() ? "" : ", ") + std::string(kind_words[k].word) + " " + count;
        text.letters += (text.letters.empty() ? "" : " ") + std::string(kind_words[k].letter) + count;
    }
    if (const std::size_t off = need.inert_count()) {
        text.words += (text.words.empty() ? "" : ", ") + std::string(off_letter) + " " + std::to_string(off);
        text.letters += (text.letters.empty() ? "" : " ") + std::string(off_letter) + std::to_string(off);
    }
    text.total = std::to_string(need.live_count() + need.inert_count());
    return text;
}

std::string hover_of_need(const Subject& subject, const GroupGraph& graph, const GroupNeed& need) {
    std::string text =
        isolated(graph.cards[need.from].name) + " -> " + isolated(graph.cards[need.to].name) + "\n" + count_text(need).words;
    if (need.live_count() == 0) text += ": inert, disabled or of weight 0";
    if (need.cycle) text += "\na cycle runs through both";
    const std::size_t all = need.live_count() + need.inert_count();
    text += all == 1 ? "" : "\nfor example";
    for (std::uint32_t a : need.examples) {
        const FoldedArrow& arrow = subject.folded.arrows[a];
        text += "\n" + isolated(name_of(subject.rig, subject.dependencies, subject.folded.vertices[arrow.from])) + " -> " +
                isolated(name_of(subject.rig, subject.dependencies, subject.folded.vertices[arrow.to])) + ", " +
                std::string(name_of(arrow.kind)) + " made by " +
                isolated(drawable(name_of(subject.rig, subject.dependencies, arrow.makers.front()))) +
                at_place(place_of(subject.rig, subject.dependencies, arrow.makers.front()));
    }
    return text;
}

std::vector<Card> make_cards(const Subject& subject, const GroupGraph& graph, const CardStyle& style) {
    std::vector<std::vector<std::uint32_t>> needs(graph.cards.size());
    for (std::uint32_t n = 0; n < graph.needs.size(); ++n) needs[graph.needs[n].to].push_back(n);
    std::vector<Card> cards;
    for (std::size_t c = 0; c < graph.cards.size(); ++c) {
        const GroupCard& from = graph.cards[c];
        Card& card = cards.emplace_back();
        const bool only_objects = from.tally.objects > 0 && from.tally.bones() + from.tally.properties == 0;
        card.box.shape = only_objects ? Shape::object : Shape::group;
        card.name = from.name, card.tally = from.tally;
        card.box.hover = hover_of_card(subject, graph, from, needs[c]);
        if (from.groups.size() == 1) card.about = {About::Kind::group, from.groups.front()};
        if (from.groups.size() > 1 || from.tally.bones() == 0) {
            CardLine line;
            const std::string count = number_of(from.groups.size(), "group");
            line.left = from.groups.size() <= 1 ? kind_of(from) : from.name == count ? "the smallest" : count;
            line.tone = Tone::quiet, line.hover = card.box.hover;
            card.lines.push_back(std::move(line));
        }
        add_verdicts(from.tally, style, card);
        add_switches(subject, style, card);
        add_needs(subject, graph, needs[c], style, card);
    }
    return cards;
}

}  // namespace ligament
