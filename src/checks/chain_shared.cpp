// Which solvers fight over a bone?
#include <algorithm>
#include <span>
#include <utility>

#include "words.hpp"

namespace ligament::checks {

namespace {

bool has_full_weight(const Constraint& solver) {
    return !solver.is_inert() && !solver.weight.is_driven() && solver.weight.number >= 1 - 1e-9;
}

/// A bone in the chains of several solvers.
struct Shared {
    std::vector<ConstraintId> solvers;  ///< in file order
    BoneId bone = none;
};

/// Those with the same solvers side by side: by their last solver, which is the one too many, then by the others.
std::vector<Shared> find_shared(const Checked& checked) {
    std::vector<std::vector<ConstraintId>> solvers_of(checked.dependencies.solvers.empty() ? 0 : checked.rig.bones.size());
    for (ConstraintId id : checked.dependencies.solvers)
        if (has_full_weight(constraint_of(checked.rig, checked.dependencies, id)))
            for (BoneId bone : chain_of(checked.rig, checked.dependencies, id)) solvers_of[bone].push_back(id);
    std::vector<Shared> shared;
    for (BoneId bone = 0; bone < solvers_of.size(); ++bone)
        if (solvers_of[bone].size() > 1) shared.push_back({std::move(solvers_of[bone]), bone});
    std::stable_sort(shared.begin(), shared.end(), [](const Shared& a, const Shared& b) {
        return a.solvers.back() != b.solvers.back() ? a.solvers.back() < b.solvers.back() : a.solvers < b.solvers;
    });
    return shared;
}

/// "a", "b" and "c", in quotes or without; a long list is shown in part.
std::string names_of(const Checked& checked, std::span<const ConstraintId> solvers, bool are_quoted) {
    const std::size_t shown = std::min(solvers.size(), listed_at_most);
    const bool is_whole = shown == solvers.size();
    std::string names;
    for (std::size_t i = 0; i < shown; ++i) {
        const std::string name = constraint_name(checked.rig, checked.dependencies, solvers[i]);
        names += (i == 0 ? "" : is_whole && i + 1 == shown ? " and " : ", ") + (are_quoted ? quoted(name) : name);
    }
    return names;
}

// One finding for all bones that the same solvers share: one a pair of solvers would be half a million where a thousand meet.
void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const std::vector<Shared> shared = find_shared(checked);
    for (std::size_t first = 0, end = 0; first < shared.size(); first = end) {
        const std::vector<ConstraintId>& solvers = shared[first].solvers;
        Finding& finding =
            findings.emplace_back(finding_of(self, constraint_of(checked.rig, checked.dependencies, solvers.back()).place));
        for (; end < shared.size() && shared[end].solvers == solvers; ++end) finding.bones.push_back(shared[end].bone);
        finding.maker = names_of(checked, solvers, false);
        finding.message = "solvers " + names_of(checked, solvers, true);
        if (solvers.size() > listed_at_most)
            finding.message += " (showing " + std::to_string(listed_at_most) + " of " + std::to_string(solvers.size()) + ")";
        finding.message += std::string(solvers.size() == 2 ? " both" : " all") + " have " + listed(checked.rig, finding.bones) +
                           " in their chains, at full weight";
        finding.hint = solvers.size() == 2 ? "shorten one of the chains, or drive the weights so that one of them is off"
                                           : "shorten the chains, or drive the weights so that all but one of them are off";
    }
}

}  // namespace

extern constinit const Check chain_shared{
    .name = "chain-shared",
    .severity = Severity::warning,
    .summary = "two solvers of constant full weight share a chain bone",
    .what =
        "A bone lies in the chains of two solvers or more, and the weight of each is 1 and not driven. One finding tells of all "
        "bones that the same solvers share.",
    .harm =
        "The second solver throws away what the first one found for the shared bones, so that one of the two targets is missed, "
        "and which one depends on the order of evaluation.",
    .mend = "Shorten one of the chains, or let a switch choose between the solvers.",
    .find = find,
};

}  // namespace ligament::checks
