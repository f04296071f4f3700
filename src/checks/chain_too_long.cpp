// Which solvers have longer chains than there are bones?
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    for (ConstraintId id : checked.dependencies.solvers) {
        const Constraint& solver = constraint_of(rig, checked.dependencies, id);
        if (solver.is_inert()) continue;
        const std::size_t bones = chain_of(rig, checked.dependencies, id).size();
        if (bones >= solver.chain) continue;
        const BoneId owner = checked.dependencies.constraints[id].bone;
        Finding& finding = findings.emplace_back(finding_of(self, solver.place));
        finding.bones = {owner};
        finding.maker = constraint_name(rig, checked.dependencies, id);
        finding.message = "solver " + quoted(finding.maker) + " has a chain of " + std::to_string(solver.chain) + " bones, but " +
                          quoted(rig.bones[owner].name) +
                          (bones == 1 ? " has no parent" : " and its ancestors are only " + std::to_string(bones));
        finding.hint = "shorten the chain, or hang its first bone where it belongs";
    }
}

}  // namespace

extern constinit const Check chain_too_long{
    .name = "chain-too-long",
    .severity = Severity::error,
    .summary = "a solver's chain is longer than the ancestors there are",
    .what = "The chain of a solver is its owner and the ancestors above it. This one asks for more of them than there are.",
    .harm =
        "Hosts shorten such a chain, refuse the solver or run into the root, each in its own way; and the parent that was lost "
        "when the limb was copied is the real fault as often as not.",
    .mend = "Give the chain the length of the limb, or the limb the parent that it lost.",
    .find = find,
};

}  // namespace ligament::checks
