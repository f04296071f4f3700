// Which bones inside a solver's chain go their own way?
#include <algorithm>
#include <array>
#include <optional>

#include "together.hpp"
#include "wiring.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

bool interrupts(const Constraint& constraint) {
    return !constraint.is_inert() && !constraint.is_solver() &&
           (parts_written(constraint) & (position_part | rotation_part)) != 0;
}

/// By bone: the solvers that are not inert in whose chain it is, in file order.
std::vector<std::vector<ConstraintId>> find_solvers_of(const Checked& checked) {
    std::vector<std::vector<ConstraintId>> solvers(checked.rig.bones.size());
    for (ConstraintId id : checked.dependencies.solvers)
        if (!constraint_of(checked.rig, checked.dependencies, id).is_inert())
            for (BoneId bone : chain_of(checked.rig, checked.dependencies, id)) solvers[bone].push_back(id);
    return solvers;
}

/// Tells apart what works against a solver and what takes its turn when the solver is off.
struct Interruptions {
    const Checked& checked;
    std::optional<TogetherSearch> search;  // made where two driven weights meet

    bool is_driven(ConstraintId id) const { return constraint_of(checked.rig, checked.dependencies, id).weight.is_driven(); }
    bool meet(ConstraintId constraint, ConstraintId solver) {
        if (!is_driven(constraint) || !is_driven(solver)) return true;
        if (!search) search.emplace(checked.rig, checked.dependencies, checked.facts.switches.switches);
        const std::array<Gate, 2> gates{Gate{constraint}, Gate{solver}};
        return search->is_together(gates);
    }
};

std::string solver_words(const Checked& checked, const std::vector<ConstraintId>& solvers) {
    const std::size_t shown = std::min(solvers.size(), listed_at_most);
    std::string words = solvers.size() == 1 ? "solver " : "solvers ";
    for (std::size_t i = 0; i < shown; ++i)
        words += (i > 0 ? ", " : "") + quoted(constraint_name(checked.rig, checked.dependencies, solvers[i]));
    if (shown < solvers.size()) words += " (showing " + std::to_string(shown) + " of " + std::to_string(solvers.size()) + ")";
    return words;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    const std::vector<std::vector<ConstraintId>> solvers_of = find_solvers_of(checked);
    Interruptions interruptions{checked, {}};
    for (ConstraintId id = 0; id < checked.dependencies.constraints.size(); ++id) {
        const BoneId bone = checked.dependencies.constraints[id].bone;
        const Constraint& constraint = constraint_of(rig, checked.dependencies, id);
        if (solvers_of[bone].empty() || !interrupts(constraint)) continue;
        std::vector<ConstraintId> met;
        for (ConstraintId solver : solvers_of[bone])
            if (interruptions.meet(id, solver)) met.push_back(solver);
        if (met.empty()) continue;
        const Parts parts = parts_written(constraint);
        Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
        finding.bones = {bone};
        finding.maker = constraint_name(rig, checked.dependencies, id);
        finding.message = "constraint " + quoted(finding.maker) + " writes the " + ((parts & position_part) ? "position" : "") +
                          ((parts & position_part) && (parts & rotation_part) ? " and " : "") +
                          ((parts & rotation_part) ? "rotation" : "") + " of " + quoted(rig.bones[bone].name) +
                          ", which is in the chain of " + solver_words(checked, met);
        finding.hint = "take it away, or give it to a bone that follows the chain";
    }
}

}  // namespace

extern constinit const Check chain_interrupted{
    .name = "chain-interrupted",
    .severity = Severity::warning,
    .summary = "a bone inside a solver's chain has a constraint of its own that writes rotation or position",
    .what =
        "A bone that a solver turns, its owner included, has a constraint that writes its rotation or position. Other solvers do "
        "not "
        "count (see chain-shared), nor does a constraint that is off at every stop of the switches at which the solver is on.",
    .harm =
        "The constraint works on what the solver has found, so that the end of the chain misses its target, or it throws away "
        "what "
        "the solver found.",
    .mend = "Take the constraint away, or put it on a bone that follows the chain.",
    .find = find,
};

}  // namespace ligament::checks
