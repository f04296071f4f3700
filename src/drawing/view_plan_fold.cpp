// Which groups share a card where there are more of them than a page holds?
#include <algorithm>
#include <map>
#include <numeric>

#include "text.hpp"
#include "view_plan_graph.hpp"
#include "words.hpp"

namespace ligament {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_break(char c) { return c == '_' || c == '.' || c == '-' || c == ' ' || c == ':' || c == '/'; }
bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }

/// Sides as the rig names them, else the usual words (common practice, no source).
std::vector<std::string> side_words(const Rig& rig) {
    std::vector<std::string> words;
    for (const auto& [one, other] : rig.sides) words.push_back(one), words.push_back(other);
    if (words.empty()) words = {"left", "right", "Left", "Right", "_l", "_r", "_L", "_R", ".l", ".r", ".L", ".R"};
    std::stable_sort(words.begin(), words.end(), [](const auto& a, const auto& b) { return a.size() > b.size(); });
    return words;
}

/// What names of one family have in common: numbers count as one sign, and so does a side at the start or the end, numbers behind
/// it left aside.
std::string stem_of(std::string_view name, const std::vector<std::string>& sides) {
    std::string stem;
    for (char c : name)
        if (!is_digit(c))
            stem += c;
        else if (stem.empty() || stem.back() != '#')
            stem += '#';
    std::size_t end = stem.size();
    while (end > 0 && (stem[end - 1] == '#' || is_break(stem[end - 1]))) --end;
    for (const std::string& side : sides) {
        if (end > side.size() && stem.compare(end - side.size(), side.size(), side) == 0)
            return stem.replace(end - side.size(), side.size(), "\x01");
        if (stem.size() > side.size() && stem.starts_with(side)) return stem.replace(0, side.size(), "\x01");
    }
    return stem;
}

/// Of a stem, a side and breaks at its start left aside: up to the next break, number or side, or the first capital behind a
/// small letter.
std::string first_word(std::string_view stem) {
    const auto ends = [](char c) { return is_break(c) || c == '#' || c == '\x01'; };
    std::size_t start = 0;
    while (start < stem.size() && ends(stem[start])) ++start;
    std::size_t at = start;
    for (; at < stem.size() && !ends(stem[at]); ++at)
        if (at > start && is_upper(stem[at]) && !is_upper(stem[at - 1])) break;
    return std::string(stem.substr(start, at - start));
}

/// Groups on cards: each in the order of the file.
using Cards = std::vector<std::vector<std::uint32_t>>;

/// Groups with the same key, cut into runs of at most `size`. In the order of the first of each.
Cards in_families(const std::vector<std::string>& keys, std::size_t size) {
    std::map<std::string, std::size_t> open;  // the part that still takes members of a family
    Cards parts;
    for (std::uint32_t g = 0; g < keys.size(); ++g) {
        const auto [entry, is_new] = open.try_emplace(keys[g], parts.size());
        if (!is_new && parts[entry->second].size() >= size) entry->second = parts.size();
        if (entry->second == parts.size()) parts.emplace_back();
        parts[entry->second].push_back(g);
    }
    return parts;
}

/// The smallest size with which there are at most `most` parts; 0 where none is enough.
std::size_t least_size(const std::vector<std::string>& keys, std::size_t most) {
    if (in_families(keys, keys.size()).size() > most) return 0;
    std::size_t low = 1, high = keys.size();
    while (low < high) {
        const std::size_t middle = (low + high) / 2;
        if (in_families(keys, middle).size() <= most)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/// By part, the part that it needs most of, itself left out; none where it needs nobody. The first on ties.
std::vector<std::uint32_t> main_sources(const GroupGraph& graph, const std::vector<std::uint32_t>& part_of, std::size_t parts) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::size_t> counts;
    for (const GroupNeed& need : graph.needs) {
        const std::uint32_t to = part_of[need.to], from = part_of[need.from];
        if (to != from && to != none && from != none) counts[{to, from}] += need.live_count();
    }
    std::vector<std::uint32_t> source(parts, none);
    std::vector<std::size_t> most(parts, 0);
    for (const auto& [ends, count] : counts)
        if (count > most[ends.first]) most[ends.first] = count, source[ends.first] = ends.second;
    return source;
}

/// The largest parts stay; of the others those with the same main source are put together, and where that is still too many,
/// all but the largest such lots. Each lot is named.
Cards with_small_ones_joined(const GroupGraph& graph, const Cards& parts, std::size_t most, std::vector<std::string>& names) {
    std::vector<std::uint32_t> part_of(graph.cards.size(), none);
    std::vector<std::size_t> bones(parts.size(), 0);
    for (std::uint32_t p = 0; p < parts.size(); ++p)
        for (std::uint32_t g : parts[p]) part_of[g] = p, bones[p] += graph.cards[g].tally.bones();
    const std::vector<std::uint32_t> source = main_sources(graph, part_of, parts.size());
    std::vector<std::uint32_t> by_size(parts.size());
    std::iota(by_size.begin(), by_size.end(), 0u);
    std::stable_sort(by_size.begin(), by_size.end(), [&](std::uint32_t a, std::uint32_t b) { return bones[a] > bones[b]; });

    std::map<std::uint32_t, std::vector<std::uint32_t>> lots;  // by source: parts, from the smallest on
    std::size_t kept = parts.size();
    while (kept > 0 && kept + lots.size() > most) --kept, lots[source[by_size[kept]]].push_back(by_size[kept]);
    std::vector<std::uint32_t> lot_order;
    for (const auto& [from, members] : lots) lot_order.push_back(from);
    std::stable_sort(lot_order.begin(), lot_order.end(),
                     [&](std::uint32_t a, std::uint32_t b) { return lots[a].size() > lots[b].size(); });

    struct Made {
        std::vector<std::uint32_t> groups;
        std::string name;
    };
    std::vector<Made> made;
    for (std::size_t i = 0; i < kept; ++i) made.push_back({parts[by_size[i]], names[by_size[i]]});
    for (std::size_t i = 0; i < lot_order.size(); ++i) {
        if (kept + i < most) made.emplace_back();
        for (std::uint32_t p : lots[lot_order[i]])
            made.back().groups.insert(made.back().groups.end(), parts[p].begin(), parts[p].end());
        if (lots[lot_order[i]].size() == 1 && kept + i < most) made.back().name = names[lots[lot_order[i]].front()];
    }
    for (Made& card : made) {
        std::sort(card.groups.begin(), card.groups.end());
        if (card.name.empty()) card.name = number_of(card.groups.size(), "group");
    }
    std::sort(made.begin(), made.end(), [](const Made& a, const Made& b) { return a.groups.front() < b.groups.front(); });
    Cards out;
    names.clear();
    for (Made& card : made) out.push_back(std::move(card.groups)), names.push_back(std::move(card.name));
    return out;
}

/// Where the number that `at` is in, or stands right behind, begins.
std::size_t start_of_number(const std::string& name, std::size_t at) {
    while (at > 0 && is_digit(name[at - 1])) --at;
    return at;
}

std::size_t end_of_number(const std::string& name, std::size_t at) {
    while (at < name.size() && is_digit(name[at])) ++at;
    return at;
}

/// "limb_103-17", "wing_l-r", with a longer dash: the first name, and of the last one what is different: whole words and
/// characters; of numbers of the same length the last two digits or more, as of pages.
std::string name_of_run(const std::string& first, const std::string& last) {
    std::size_t same = 0;
    while (same < first.size() && same < last.size() && first[same] == last[same]) ++same;
    const std::size_t start = start_of_number(last, same);
    const bool numbers = end_of_number(first, same) > start && end_of_number(last, same) > start;
    const std::size_t end = end_of_number(last, same);
    if (numbers) same = end_of_number(first, same) == end ? std::min(same, std::max(start + 2, end) - 2) : start;
    if (!numbers)
        while (same > 0 && !is_break(last[same - 1])) --same;
    return drawable(first + "\u2013" + last.substr(same));
}

std::vector<std::string> names_of(const Subject& subject, const GroupGraph& graph, const Cards& parts) {
    std::vector<std::string> names;
    for (const auto& part : parts)
        names.push_back(part.size() == 1 ? graph.cards[part.front()].name
                                         : name_of_run(subject.groups[part.front()], subject.groups[part.back()]));
    return names;
}

}  // namespace

FoldedGroups fold_groups(const Subject& subject, const GroupGraph& graph, std::size_t most) {
    const std::size_t groups = subject.groups.size();
    if (groups <= most) return {graph, {}};
    const std::vector<std::string> sides = side_words(subject.rig);
    std::vector<std::string> stems, words;
    for (const std::string& name : subject.groups) {
        stems.push_back(name.empty() ? "" : "+" + stem_of(name, sides));
        words.push_back(name.empty() ? "" : "+" + first_word(stem_of(name, sides)));
    }
    std::string rule = "names that differ only in side or number share a card";
    std::size_t size = least_size(stems, most);
    const bool by_stem = size > 0;
    if (!by_stem) rule += ", then names that begin with the same word", size = least_size(words, most);
    const bool is_enough = size > 0;
    if (is_enough) rule += ", up to " + std::to_string(size) + " in one";
    Cards parts = in_families(by_stem ? stems : words, is_enough ? size : groups);
    std::vector<std::string> names = names_of(subject, graph, parts);
    if (!is_enough) {
        rule += ", then the smallest, by the group that they need most";
        parts = with_small_ones_joined(graph, parts, most, names);
    }

    std::vector<std::uint32_t> card_of(graph.cards.size(), 0);
    for (std::uint32_t p = 0; p < parts.size(); ++p)
        for (std::uint32_t g : parts[p]) card_of[g] = p;
    for (std::size_t c = groups; c < graph.cards.size(); ++c) {
        card_of[c] = static_cast<std::uint32_t>(names.size());
        names.push_back(graph.cards[c].name);
    }
    return {join_cards(graph, card_of, names),
            std::to_string(groups) + " groups folded to " + std::to_string(parts.size()) + ": " + rule};
}

}  // namespace ligament
