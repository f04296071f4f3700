// Which chains may bend wherever they like?
#include <algorithm>

#include "words.hpp"

namespace ligament::checks {

namespace {

bool has_pole(const Constraint& solver) {
    return std::any_of(solver.sources.begin(), solver.sources.end(), [](const Source& source) {
        return source.use == Source::Use::pole && (source.weight.is_driven() || source.weight.number > 1e-9);
    });
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    for (ConstraintId id : checked.dependencies.solvers) {
        const Constraint& solver = constraint_of(rig, checked.dependencies, id);
        if (solver.kind != ConstraintKind::ik || solver.is_inert() || has_pole(solver)) continue;
        const std::size_t bones = chain_of(rig, checked.dependencies, id).size();
        if (bones < 2) continue;
        Finding& finding = findings.emplace_back(finding_of(self, solver.place));
        finding.bones = {checked.dependencies.constraints[id].bone};
        finding.maker = constraint_name(rig, checked.dependencies, id);
        finding.message =
            "solver " + quoted(finding.maker) + " bends a chain of " + std::to_string(bones) + " bones without a pole";
        finding.hint = "give it a pole, where the plane in which it bends matters";
    }
}

}  // namespace

extern constinit const Check ik_no_pole{
    .name = "ik-no-pole",
    .severity = Severity::note,
    .summary = "a chain of two or more without a pole",
    .what = "An `ik` solver whose chain has two or more bones has no pole, or one of weight 0.",
    .harm =
        "Nothing says in which plane the chain bends. Knee or elbow may turn with the rounding of the rest pose, and flip when "
        "the "
        "chain is stretched out.",
    .mend = "Give it a pole. A tail or tongue may do without.",
    .find = find,
};

}  // namespace ligament::checks
