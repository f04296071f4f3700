// Which constraints move their bone out of its rest pose?
#include "common.hpp"
#include "rest_moves.hpp"
#include "value_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

std::string apart_words(const RestMove& move, bool along) {
    std::string words;
    const auto add = [&](const std::string& more) { words += (words.empty() ? "" : ", ") + more; };
    if (move.distance > 0)
        add(std::string(along ? "that place on it" : "it") + " is " + measured_words(move.distance, 6) + " away");
    if (move.angle > 0) add("it is turned by " + measured_words(move.angle, 2) + " degrees");
    if (move.is_resized) add("it has another scale");
    return words;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    const RestTolerance tolerance{checked.rules.thresholds.rest_distance, checked.rules.thresholds.rest_angle};
    for (const RestMove& move :
         find_rest_moves(rig, checked.dependencies, checked.common.frames(), checked.facts.switches, tolerance)) {
        const Constraint& constraint = constraint_of(rig, checked.dependencies, move.constraint);
        const BoneId owner = checked.dependencies.constraints[move.constraint].bone;
        Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
        finding.bones = {owner};
        finding.maker = constraint_name(rig, checked.dependencies, move.constraint);
        finding.message = "constraint " + quoted(finding.maker) + " moves its bone at rest: it takes over the " +
                          std::string(constraint.kind == ConstraintKind::transform ? "transform" : name_of(constraint.kind)) +
                          " of " + quoted(source_words(rig, constraint.sources[0])) + ", but " +
                          apart_words(move, constraint.sources[0].at > 0);
        finding.hint = "place the two on each other at rest, or let it keep the offset (kind \"space\")";
    }
}

}  // namespace

extern constinit const Check constraint_moves_rest{
    .name = "constraint-moves-rest",
    .severity = Severity::warning,
    .summary = "a constraint takes over where its source is, and that is elsewhere at rest",
    .what =
        "A transform, position or rotation constraint of one source, with all axes, not additive and not in local space, lets "
        "its "
        "bone stand where the source stands; but at rest the two differ in what it takes over, by more than the thresholds "
        "rest_distance and rest_angle. With a place along the source (at) that place counts. Left out are dead constraints, "
        "blends "
        "of several sources, spaces (which keep the offset), and bones whose own channels are driven away from rest.",
    .harm =
        "The rest pose does not survive switching the rig on: the bone jumps, and the skin that was bound at rest is bent before "
        "anybody has posed anything.",
    .mend =
        "Place the bone on its source at rest, or read a bone that stands where it stands, such as one that hangs under the "
        "source; "
        "where the offset is meant, a space constraint keeps it.",
    .find = find,
};

}  // namespace ligament::checks
