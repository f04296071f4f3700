#include "view_change.hpp"

#include <algorithm>
#include <array>

#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

std::string counts_text(const Comparison& comparison) {
    static constexpr std::array<const char*, 4> words{"new", "gone", "renamed", "changed"};
    std::string text;
    for (const auto& [element, noun] : {std::pair{Element::bone, "bone"},
                                        {Element::constraint, "constraint"},
                                        {Element::property, "property"},
                                        {Element::object, "object"}}) {
        std::array<std::size_t, 4> counts{};
        std::size_t all = 0;
        for (const Change& change : comparison.changes) {
            if (change.element != element) continue;
            ++all;
            ++counts[change.is_added() ? 0 : change.is_removed() ? 1 : change.renamed ? 2 : 3];
        }
        if (all == 0) continue;
        std::string one;
        for (std::size_t i = 0; i < counts.size(); ++i)
            if (counts[i] > 0) one += (one.empty() ? "" : ", ") + std::to_string(counts[i]) + " " + words[i];
        text += (text.empty() ? "" : " \u00b7 ") + number_of(all, noun) + ": " + one;
    }
    const auto worse = [](const auto& changes) {
        return static_cast<std::size_t>(
            std::count_if(changes.begin(), changes.end(), [](const auto& change) { return change.is_worse; }));
    };
    std::string bad;
    if (const std::size_t count = worse(comparison.verdicts)) bad = number_of(count, "deform bone");
    if (const std::size_t count = worse(comparison.cycles)) bad += (bad.empty() ? "" : ", ") + number_of(count, "cycle");
    return bad.empty() ? text : text + " \u00b7 worse: " + bad;
}

/// What is no element of a group: names of groups, the rig's own keys, the order in the file.
std::string others_text(const Comparison& comparison) {
    std::string text;
    const auto say = [&](const std::string& words) { text += (text.empty() ? "" : " \u00b7 ") + words; };
    constexpr std::size_t most_told = 4;
    const auto& groups = comparison.matching.groups;
    for (std::size_t i = 0; i < groups.size() && i < most_told; ++i)
        say("group " + isolated(drawable(groups[i].first)) + " \u2192 " + isolated(drawable(groups[i].second)));
    if (groups.size() > most_told) say(std::to_string(groups.size() - most_told) + " more groups renamed");
    for (const Change& change : comparison.changes)
        for (const FieldChange& field : change.fields)
            if (change.element == Element::rig)
                say(field.field + ": " + (field.before.empty() ? "\u2014" : isolated(drawable(field.before))) + " \u2192 " +
                    (field.after.empty() ? "\u2014" : isolated(drawable(field.after))));
    if (comparison.moved_in_file > 0) say(number_of(comparison.moved_in_file, "bone") + " moved within the file");
    return text;
}

std::string left_out_text(const ChangePlan& plan) {
    std::string text;
    const auto say = [&](std::size_t count, const std::string& words) {
        if (count > 0) text += (text.empty() ? "" : " \u00b7 ") + words;
    };
    say(plan.neighbours_folded,
        number_of(plan.neighbours_folded, "neighbour") + " told by number, beside ties that stayed as they were");
    say(plan.cards_left_out, "showing " + std::to_string(most_cards) + " of " + std::to_string(most_cards + plan.cards_left_out) +
                                 " changed elements");
    say(plan.renames_left_out, "showing " + std::to_string(most_renames) + " of " +
                                   std::to_string(most_renames + plan.renames_left_out) + " renamed elements");
    return text;
}

}  // namespace

std::vector<std::uint32_t> changes_to_draw(const Subject& subject) {
    return subject.change ? std::vector<std::uint32_t>{0} : std::vector<std::uint32_t>{};
}

std::vector<Sheet> plan_of_change(const Subject& subject, std::uint32_t, Room room) {
    const Comparison& comparison = subject.change->comparison;
    const ChangePlan plan = plan_changes(subject);
    room.height -= 2 * 24;  // of all views this one may explain most: up to four rows of legend
    std::vector<Sheet> sheets = draw_change_pages(plan, room);
    if (sheets.empty()) {
        Sheet& sheet = sheets.emplace_back();
        sheet.scene.add(label_at(0, 0,
                                 comparison.is_same() ? "nothing changed between the two revisions"
                                                      : "no bone, constraint, property or object changed"));
        fit_scene(sheet.scene, room);
    }
    for (Sheet& sheet : sheets)
        for (const std::string& line : {counts_text(comparison), others_text(comparison), left_out_text(plan)})
            if (!line.empty()) sheet.subtitle.push_back(line);
    number_sheets(sheets, subject, "change", drawable_title(subject, "what changed"));
    return sheets;
}

}  // namespace ligament
