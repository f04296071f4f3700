#include "link_words.hpp"

#include <algorithm>

#include "words.hpp"

namespace ligament::checks {

MakerId deciding_maker(const Dependencies& dependencies, const FoldedEdge& link) {
    const bool is_followed = dependencies.makers[link.maker].kind == Maker::Kind::follows;
    return is_followed && !link.through.empty() ? link.through.front() : link.maker;
}

std::string makers_words(const Checked& checked, const FoldedEdge& link) {
    const auto word = [&](MakerId maker) {
        const Maker::Kind kind = checked.dependencies.makers[maker].kind;
        const std::string said = kind == Maker::Kind::follows ? "object" : std::string(name_of(edge_kind_of(kind)));
        return said + " " + quoted(name_of(checked.rig, checked.dependencies, maker));
    };
    if (checked.dependencies.makers[link.maker].kind == Maker::Kind::parent_link) return "as its child";
    std::string words = "by " + word(link.maker);
    const std::size_t shown = std::min(link.through.size(), listed_at_most - 1);
    const bool is_whole = shown == link.through.size();
    for (std::size_t i = 0; i < shown; ++i) words += (is_whole && i + 1 == shown ? " and " : ", ") + word(link.through[i]);
    if (!is_whole) words += " (showing " + std::to_string(shown + 1) + " of " + std::to_string(link.through.size() + 1) + ")";
    return words;
}

Finding finding_about_link(const Checked& checked, const Check& check, const FoldedEdge& link) {
    const MakerId maker = deciding_maker(checked.dependencies, link);
    Finding finding = finding_of(check, place_of(checked.rig, checked.dependencies, maker));
    finding.bones = {std::min(link.from, link.to), std::max(link.from, link.to)};
    finding.maker = name_of(checked.rig, checked.dependencies, maker);
    return finding;
}

void sort_by_place(std::vector<Finding>& findings, std::size_t first) {
    std::stable_sort(findings.begin() + static_cast<std::ptrdiff_t>(first), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.place < b.place; });
}

}  // namespace ligament::checks
