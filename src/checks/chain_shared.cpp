// Which solvers fight over a bone?
#include <algorithm>
#include <map>

#include "words.hpp"

namespace ligament::checks {

namespace {

bool has_full_weight(const Constraint& solver) {
    return !solver.is_inert() && !solver.weight.is_driven() && solver.weight.number >= 1 - 1e-9;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    const Dependencies& dependencies = checked.dependencies;
    std::map<BoneId, std::vector<ConstraintId>> earlier;  // by bone: the solvers that have it in their chain
    for (ConstraintId id : dependencies.solvers) {
        const Constraint& solver = constraint_of(rig, dependencies, id);
        if (!has_full_weight(solver)) continue;
        std::map<ConstraintId, std::vector<BoneId>> shared;
        for (BoneId bone : chain_of(rig, dependencies, id)) {
            std::vector<ConstraintId>& others = earlier[bone];
            for (ConstraintId other : others) shared[other].push_back(bone);
            others.push_back(id);
        }
        for (auto& [other, bones] : shared) {
            std::sort(bones.begin(), bones.end());
            Finding& finding = findings.emplace_back(finding_of(self, solver.place));
            const std::string first = constraint_name(rig, dependencies, other), second = constraint_name(rig, dependencies, id);
            finding.maker = first + " and " + second;
            finding.message = "solvers " + quoted(first) + " and " + quoted(second) + " both have " + listed(rig, bones) +
                              " in their chains, at full weight";
            finding.hint = "shorten one of the chains, or drive the weights so that one of them is off";
            finding.bones = std::move(bones);
        }
    }
}

}  // namespace

extern constinit const Check chain_shared{
    .name = "chain-shared",
    .severity = Severity::warning,
    .summary = "two solvers of constant full weight share a chain bone",
    .what = "A bone lies in the chains of two solvers, and the weight of both is 1 and not driven.",
    .harm =
        "The second solver throws away what the first one found for the shared bones, so that one of the two targets is missed, "
        "and which one depends on the order of evaluation.",
    .mend = "Shorten one of the chains, or let a switch choose between the solvers.",
    .find = find,
};

}  // namespace ligament::checks
