// Which constraints never do anything?
#include "words.hpp"

namespace ligament::checks {

namespace {

std::string why(const Constraint& constraint, const SwitchFacts& switches, bool is_replaced) {
    if (!constraint.enabled) return "is disabled";
    if (constraint.is_inert()) return "has the weight 0";
    const std::string states = switches.looked_at == 1 ? "in the one state that there is"
                                                       : "in all " + std::to_string(switches.looked_at) + " states looked at";
    if (!is_replaced) return "has the weight 0 " + states;
    return "never gets through: later steps replace all that it writes, " + states;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const SwitchFacts& switches = checked.facts.switches;
    for (std::size_t i = 0; i < switches.dead.size(); ++i) {
        const ConstraintId id = switches.dead[i];
        const Constraint& constraint = constraint_of(checked.rig, checked.dependencies, id);
        Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
        finding.bones = {checked.dependencies.constraints[id].bone};
        finding.maker = constraint_name(checked.rig, checked.dependencies, id);
        finding.message =
            "constraint " + quoted(finding.maker) + " " + why(constraint, switches, switches.dead_is_replaced[i] != 0);
        finding.hint = constraint.is_inert() ? "take it away, or switch it on"
                                             : "take it away, or give it a weight that some switch lets through";
    }
}

}  // namespace

extern constinit const Check constraint_dead{
    .name = "constraint-dead",
    .severity = Severity::warning,
    .summary = "disabled, weight always 0, or overridden at every stop of every switch",
    .what =
        "Nothing ever comes of this constraint: it is disabled, or in the default state, at each stop of each switch and in each "
        "combination of switches that was looked at its weight is 0 or later steps of the stack replace all that it writes. A "
        "constraint whose result another bone reads before it is replaced is not dead.",
    .harm =
        "It costs time at every frame, and whoever reads the stack next takes it for part of the rig. Often it is left over from "
        "a copied bone, or a later constraint was meant to be driven by a switch and is not.",
    .mend = "Take it away, or give the later constraint its driver.",
    .find = find,
};

}  // namespace ligament::checks
