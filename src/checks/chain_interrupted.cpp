// Which bones inside a solver's chain go their own way?
#include <algorithm>
#include <span>

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

/// A constraint on a bone inside the chain of a solver.
struct Meeting {
    ConstraintId constraint = none, solver = none;
};

/// By constraint. A constraint that takes its turn when the solver is off does not meet it.
std::vector<Meeting> find_meetings(const Checked& checked) {
    if (checked.dependencies.solvers.empty()) return {};
    const std::vector<std::vector<ConstraintId>> solvers_of = find_solvers_of(checked);
    const auto is_driven = [&](ConstraintId id) {
        return constraint_of(checked.rig, checked.dependencies, id).weight.is_driven();
    };
    std::vector<Meeting> candidates;
    std::vector<std::size_t> asked;  // places of candidates whose weights are both driven: only these may miss each other
    std::vector<std::vector<Gate>> gates;
    for (ConstraintId id = 0; id < checked.dependencies.constraints.size(); ++id) {
        const std::vector<ConstraintId>& solvers = solvers_of[checked.dependencies.constraints[id].bone];
        if (solvers.empty() || !interrupts(constraint_of(checked.rig, checked.dependencies, id))) continue;
        const bool may_miss = is_driven(id);
        for (ConstraintId solver : solvers) {
            if (may_miss && is_driven(solver)) {
                asked.push_back(candidates.size());
                gates.push_back({{id}, {solver}});
            }
            candidates.push_back({id, solver});
        }
    }
    const std::vector<bool> meet = find_together(checked.rig, checked.dependencies, checked.facts.switches.switches, gates);
    for (std::size_t i = 0; i < asked.size(); ++i)
        if (!meet[i]) candidates[asked[i]].constraint = none;
    std::erase_if(candidates, [](const Meeting& meeting) { return meeting.constraint == none; });
    return candidates;
}

std::string solver_words(const Checked& checked, std::span<const Meeting> meetings) {
    const std::size_t shown = std::min(meetings.size(), listed_at_most);
    std::string words = meetings.size() == 1 ? "solver " : "solvers ";
    for (std::size_t i = 0; i < shown; ++i)
        words += (i > 0 ? ", " : "") + quoted(constraint_name(checked.rig, checked.dependencies, meetings[i].solver));
    if (shown < meetings.size()) words += " (showing " + std::to_string(shown) + " of " + std::to_string(meetings.size()) + ")";
    return words;
}

std::string written_words(const Constraint& constraint) {
    const Parts parts = parts_written(constraint);
    if (!(parts & position_part)) return "rotation";
    return parts & rotation_part ? "position and rotation" : "position";
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const std::vector<Meeting> meetings = find_meetings(checked);
    for (std::size_t first = 0, end = 0; first < meetings.size(); first = end) {
        const ConstraintId id = meetings[first].constraint;
        while (end < meetings.size() && meetings[end].constraint == id) ++end;
        const Constraint& constraint = constraint_of(checked.rig, checked.dependencies, id);
        const BoneId bone = checked.dependencies.constraints[id].bone;
        Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
        finding.bones = {bone};
        finding.maker = constraint_name(checked.rig, checked.dependencies, id);
        finding.message = "constraint " + quoted(finding.maker) + " writes the " + written_words(constraint) + " of " +
                          quoted(checked.rig.bones[bone].name) + ", which is in the chain of " +
                          solver_words(checked, std::span(meetings).subspan(first, end - first));
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
