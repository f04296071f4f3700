// Which bones inside a solver's chain go their own way?
#include <algorithm>
#include <compare>
#include <map>
#include <set>
#include <tuple>
#include <utility>

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

/// What a driver says, in some order; drivers that say the same come to the same in every state.
std::weak_ordering compare_drivers(const Driver* a, const Driver* b) {
    const auto read = [](const Input& x) { return std::tie(x.name, x.kind, x.property, x.bone, x.other, x.channel, x.space); };
    if (const auto order = a->expression <=> b->expression; order != 0) return order;
    if (a->curve != b->curve) return a->curve < b->curve ? std::weak_ordering::less : std::weak_ordering::greater;
    return std::lexicographical_compare_three_way(
        a->inputs.begin(), a->inputs.end(), b->inputs.begin(), b->inputs.end(),
        [&](const Input& x, const Input& y) { return std::weak_ordering(read(x) <=> read(y)); });
}

/// Numbers for the driven weights of constraints and their sources: equal where these are driven alike. Where hundreds of
/// solvers and constraints of a bone hang on one switch, the pairs of them are few kinds.
class Drives {
  public:
    explicit Drives(const Checked& checked) : checked_(checked) {}

    /// 0 where the weight of the constraint is not driven.
    std::uint32_t of(ConstraintId id) {
        const Constraint& constraint = constraint_of(checked_.rig, checked_.dependencies, id);
        if (!constraint.weight.is_driven()) return 0;
        std::vector<const Driver*> drivers{&checked_.rig.drivers[constraint.weight.driver]};
        for (const Source& source : constraint.sources)
            if (source.weight.is_driven()) drivers.push_back(&checked_.rig.drivers[source.weight.driver]);
        return numbers_.emplace(std::move(drivers), static_cast<std::uint32_t>(numbers_.size() + 1)).first->second;
    }

  private:
    struct Less {
        bool operator()(const std::vector<const Driver*>& a, const std::vector<const Driver*>& b) const {
            return std::lexicographical_compare_three_way(a.begin(), a.end(), b.begin(), b.end(), compare_drivers) < 0;
        }
    };
    const Checked& checked_;
    std::map<std::vector<const Driver*>, std::uint32_t, Less> numbers_;
};

/// A constraint that interrupts, or a solver, with the number of its drive.
struct Member {
    ConstraintId id = none;
    std::uint32_t drive = 0;
};

/// A bone in a chain on which something interrupts.
struct Crossing {
    BoneId bone = none;
    std::vector<Member> interrupting, solvers;  ///< in file order
};

std::vector<Crossing> find_crossings(const Checked& checked) {
    if (checked.dependencies.solvers.empty()) return {};
    const Dependencies& dependencies = checked.dependencies;
    const std::vector<std::vector<ConstraintId>> solvers_of = find_solvers_of(checked);
    Drives drives(checked);
    std::vector<Crossing> crossings;
    for (BoneId bone = 0; bone < solvers_of.size(); ++bone) {
        if (solvers_of[bone].empty()) continue;
        Crossing crossing{bone, {}, {}};
        for (ConstraintId id = dependencies.first_constraint_of_bone[bone]; id < dependencies.first_constraint_of_bone[bone + 1];
             ++id)
            if (interrupts(constraint_of(checked.rig, dependencies, id))) crossing.interrupting.push_back({id, drives.of(id)});
        if (crossing.interrupting.empty()) continue;
        for (ConstraintId solver : solvers_of[bone]) crossing.solvers.push_back({solver, drives.of(solver)});
        crossings.push_back(std::move(crossing));
    }
    return crossings;
}

using Drive = std::pair<std::uint32_t, std::uint32_t>;  // of a constraint, of a solver

/// The pairs of drives that are never on at once: such a constraint takes its turn when the solver is off. Only two driven
/// weights may miss each other.
std::set<Drive> find_missing(const Checked& checked, const std::vector<Crossing>& crossings) {
    std::map<Drive, std::vector<Gate>> asked;  // by a constraint and a solver that stand for all of their drives
    for (const Crossing& crossing : crossings) {
        std::map<std::uint32_t, ConstraintId> constraints, solvers;
        for (const Member& member : crossing.interrupting) constraints.emplace(member.drive, member.id);
        for (const Member& member : crossing.solvers) solvers.emplace(member.drive, member.id);
        for (const auto& [drive, constraint] : constraints)
            for (const auto& [of_solver, solver] : solvers)
                if (drive != 0 && of_solver != 0)
                    asked.try_emplace({drive, of_solver}, std::vector<Gate>{{constraint}, {solver}});
    }
    std::vector<std::vector<Gate>> gates;
    for (const auto& [pair, both] : asked) gates.push_back(both);
    const std::vector<bool> meet = find_together(checked.rig, checked.dependencies, checked.facts.switches.switches, gates);
    std::set<Drive> missing;
    std::size_t place = 0;
    for (const auto& [pair, both] : asked)
        if (!meet[place++]) missing.insert(pair);
    return missing;
}

/// The solvers of a bone that a constraint of that drive meets: "solver "a"", "solvers "a", "b""; empty where it misses all.
std::string solver_words(const Checked& checked, const Crossing& crossing, std::uint32_t drive, const std::set<Drive>& missing) {
    std::string words;
    std::size_t shown = 0, all = 0;
    for (const Member& solver : crossing.solvers) {
        if (missing.contains({drive, solver.drive}) || ++all > listed_at_most) continue;
        words += (shown++ > 0 ? ", " : "") + quoted(constraint_name(checked.rig, checked.dependencies, solver.id));
    }
    if (shown < all) words += " (showing " + std::to_string(shown) + " of " + std::to_string(all) + ")";
    return all == 0 ? words : (all == 1 ? "solver " : "solvers ") + words;
}

std::string written_words(const Constraint& constraint) {
    const Parts parts = parts_written(constraint);
    if (!(parts & position_part)) return "rotation";
    return parts & rotation_part ? "position and rotation" : "position";
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const std::vector<Crossing> crossings = find_crossings(checked);
    const std::set<Drive> missing = find_missing(checked, crossings);
    for (const Crossing& crossing : crossings) {
        std::map<std::uint32_t, std::string> words;  // by drive
        for (const Member& member : crossing.interrupting) {
            const auto [met, is_new] = words.try_emplace(member.drive);
            if (is_new) met->second = solver_words(checked, crossing, member.drive, missing);
            if (met->second.empty()) continue;
            const Constraint& constraint = constraint_of(checked.rig, checked.dependencies, member.id);
            Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
            finding.bones = {crossing.bone};
            finding.maker = constraint_name(checked.rig, checked.dependencies, member.id);
            finding.message = "constraint " + quoted(finding.maker) + " writes the " + written_words(constraint) + " of " +
                              quoted(checked.rig.bones[crossing.bone].name) + ", which is in the chain of " + met->second;
            finding.hint = "take it away, or give it to a bone that follows the chain";
        }
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
