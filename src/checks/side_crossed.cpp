// Which bone of one side depends on a bone of the other?
#include <algorithm>

#include "common.hpp"
#include "ligament/links.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

std::string hint_words(const Checked& checked, const FoldedEdge& edge, const Sides& sides) {
    const BoneId mirror = sides.bones[edge.from].partner;
    if (mirror == none) return "let it read a bone of its own side, or one in the middle";
    if (mirror == edge.to) return "let both read a bone in the middle";
    return "let it read " + quoted(checked.rig.bones[mirror].name) + ", or a bone in the middle";
}

/// What a custom constraint, such as a simulation, reads of both partners alike is what it stays clear of, such as both legs of a
/// cloak: then neither side follows the other.
bool reads_both(const Checked& checked, const FoldedEdge& link, const Sides& sides) {
    const Maker& maker = checked.dependencies.makers[link.maker];
    if (maker.kind != Maker::Kind::constraint || !link.through.empty()) return false;
    const Constraint& constraint = constraint_of(checked.rig, checked.dependencies, maker.element);
    const BoneId partner = sides.bones[link.from].partner;
    return constraint.kind == ConstraintKind::custom && partner != none &&
           std::any_of(constraint.sources.begin(), constraint.sources.end(),
                       [&](const Source& source) { return source.bone == partner; });
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Sides& sides = checked.common.sides();
    if (!sides.is_any()) return;
    std::vector<bool> is_first(sides.bones.size()), is_second(sides.bones.size());
    for (BoneId bone = 0; bone < sides.bones.size(); ++bone) {
        const NameSide side = sides.bones[bone].side;
        is_first[bone] = side && !side.is_second;
        is_second[bone] = side && side.is_second;
    }
    std::vector<FoldedEdge> links = find_links(checked.rig, checked.dependencies, is_first, is_second);
    const std::vector<FoldedEdge> back = find_links(checked.rig, checked.dependencies, is_second, is_first);
    links.insert(links.end(), back.begin(), back.end());
    std::sort(links.begin(), links.end(),
              [](const FoldedEdge& a, const FoldedEdge& b) { return std::pair(a.from, a.to) < std::pair(b.from, b.to); });
    for (const FoldedEdge& link : links) {
        if (!sides.bones[link.from].side.is_other_of(sides.bones[link.to].side) || reads_both(checked, link, sides)) continue;
        Finding& finding = findings.emplace_back(finding_of(self, place_of(checked.rig, checked.dependencies, link.maker)));
        finding.bones = {std::min(link.from, link.to), std::max(link.from, link.to)};
        finding.maker = name_of(checked.rig, checked.dependencies, link.maker);
        finding.message = quoted(checked.rig.bones[link.to].name) + " depends on " + quoted(checked.rig.bones[link.from].name) +
                          " of the other side (" + edge_words(checked, link) + ")";
        finding.hint = hint_words(checked, link, sides);
    }
}

}  // namespace

extern constinit const Check side_crossed{
    .name = "side-crossed",
    .severity = Severity::warning,
    .summary = "a bone of one side depends on a bone of the other",
    .what =
        "By their names the two bones are on different sides, and one needs the other: as its parent, by a constraint, a driver "
        "or "
        "a solver, or through properties and objects in between. The sides are the pairs of tokens that the rig declares; a "
        "token "
        "counts where no letter or digit touches its own letter or digit end. What is disabled does not count, nor does a custom "
        "constraint that reads both partners alike, as cloth does of the legs that it stays clear of.",
    .harm =
        "One limb follows the other one: a copied side that still reads the original moves rightly as long as both sides are "
        "posed "
        "alike, and comes apart as soon as they are not.",
    .mend = "Let it read the bone of its own side. What both sides share belongs on a bone in the middle.",
    .find = find,
};

}  // namespace ligament::checks
