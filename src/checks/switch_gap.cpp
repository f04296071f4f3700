// Which bone of a run is left out of the switch that gates its neighbours?
#include <algorithm>

#include "words.hpp"

namespace ligament::checks {

namespace {

std::string gated_words(const Checked& checked, const SwitchGap& gap) {
    std::string words = listed(checked.rig, gap.gated);
    if (gap.gated.size() < gap.gated_count)
        words += " (showing " + std::to_string(gap.gated.size()) + " of " + std::to_string(gap.gated_count) + ")";
    return words;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (const SwitchGap& gap : checked.facts.switches.gaps) {
        const Constraint& constraint = constraint_of(checked.rig, checked.dependencies, gap.constraint);
        const std::string property = quoted(checked.rig.properties[gap.property].name);
        Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
        finding.bones = {gap.bone};
        finding.maker = constraint_name(checked.rig, checked.dependencies, gap.constraint) + " and " +
                        checked.rig.properties[gap.property].name;
        finding.message = "switch " + property + " gates this place of the stack on " + gated_words(checked, gap) + ", but not " +
                          quoted(constraint_name(checked.rig, checked.dependencies, gap.constraint)) + " of the same run";
        finding.hint = "drive its weight by " + property + " as theirs are";
    }
}

}  // namespace

extern constinit const Check switch_gap{
    .name = "switch-gap",
    .severity = Severity::warning,
    .summary = "a bone of a run has the stack of its neighbours, but not the switch that drives theirs",
    .what =
        "Bones that hang under each other and have constraints of equal kinds in equal order are one run, such as the mechanism "
        "chain of an arm. A switch gates the same place of the stack on two or more of them, but not on this one: the forgotten "
        "driver.",
    .harm =
        "The bone stays attached at every stop, but to the wrong chain, so that no verdict shows it: at one stop the limb comes "
        "apart at this joint.",
    .mend = "Drive the weight there as its neighbours do.",
    .find = find,
};

}  // namespace ligament::checks
