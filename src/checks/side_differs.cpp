// Which partners of two sides are not the same rig?
#include <algorithm>

#include "common.hpp"
#include "number.hpp"
#include "side_differences.hpp"
#include "side_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

constexpr std::size_t named_at_most = 4;

std::string first_words(const std::vector<Difference>& differences) {
    const std::size_t shown = std::min(differences.size(), named_at_most);
    std::string words;
    for (std::size_t i = 0; i < shown; ++i) words += (i > 0 ? ", " : "") + differences[i].what;
    if (shown < differences.size())
        words += " (showing " + std::to_string(shown) + " of " + std::to_string(differences.size()) + ")";
    return words;
}

std::string plane_words(const SideDifferences& sides, const DifferingPair& pair) {
    const bool is_placed = std::any_of(pair.differences.begin(), pair.differences.end(), [](const SideDifference& difference) {
        return difference.aspect == SideDifference::Aspect::rest_position || difference.aspect == SideDifference::Aspect::tip;
    });
    if (!is_placed || !sides.plane) return {};
    return "; places are mirrored in " + std::string(1, static_cast<char>('x' + sides.plane->axis)) +
           (sides.plane->offset == 0 ? "" : " about " + number_text(sides.plane->offset));
}

void finish(Finding& finding, const std::string& left, const std::string& right) {
    finding.message = quoted(left) + " and " + quoted(right) + " differ in " + counted(finding.differences.size(), "thing") +
                      ": " + first_words(finding.differences);
    finding.hint = "find out which one is right, and mirror it";
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    const SideDifferences sides =
        find_side_differences(rig, checked.common.sides(), checked.common.frames(), checked.rules.thresholds.mirror_distance);
    for (const DifferingPair& pair : sides.bones) {
        Finding& finding = findings.emplace_back(finding_about(self, rig, pair.left));
        finding.bones.push_back(pair.right);
        for (const SideDifference& difference : pair.differences)
            finding.differences.push_back(bone_difference(rig, pair, difference));
        finish(finding, rig.bones[pair.left].name, rig.bones[pair.right].name);
        finding.hint += plane_words(sides, pair);
    }
    for (const DifferingPair& pair : sides.properties) {
        Finding& finding = findings.emplace_back(finding_about_property(self, rig, pair.left));
        for (const SideDifference& difference : pair.differences)
            finding.differences.push_back(property_difference(rig, pair, difference));
        finish(finding, rig.properties[pair.left].name, rig.properties[pair.right].name);
    }
}

}  // namespace

extern constinit const Check side_differs{
    .name = "side-differs",
    .severity = Severity::warning,
    .summary = "two partners of opposite sides are not the same but for the side",
    .what =
        "The two bones or properties mirror each other by their names, but not in all that the rig says of them: roles, parent, "
        "group, place and tip at rest, curve, driven channels, and the constraints with their sources and settings; or default, "
        "bounds, stops and driver of a property. Names are expected mirrored, what has no side is its own mirror, and what only "
        "mirroring turns about (the sign of an axis, of a driven position or rotation, of a limit) is the same. Driven values "
        "are "
        "compared by what they come to. Places at rest are mirrored across the plane that fits most pairs.",
    .harm =
        "One side was mended and the other one was not: the limbs answer differently to the same pose, and nobody can tell which "
        "one is meant.",
    .mend = "Find out which side is right and mirror it. The table names every thing that differs.",
    .find = find,
};

}  // namespace ligament::checks
