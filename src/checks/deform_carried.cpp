// Which deform bones only ride on their deform parent?
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (const Attachment& attachment : checked.facts.attachment.deform) {
        if (attachment.verdict != Verdict::carried) continue;
        const Bone& bone = checked.rig.bones[attachment.bone];
        Finding& finding = findings.emplace_back(finding_about(self, checked.rig, attachment.bone));
        finding.message = "deform bone " + quoted(bone.name) + " only rides on its deform parent";
        if (bone.parent != none) finding.message += " " + quoted(checked.rig.bones[bone.parent].name);
        finding.hint = "if it should bend by itself, give it a constraint of its own; a tip or helper bone may stay so";
    }
}

}  // namespace

extern constinit const Check deform_carried{
    .name = "deform-carried",
    .severity = Severity::note,
    .summary = "it only rides on its deform parent",
    .what =
        "Controls reach this deform bone only because its parent, a deform bone too, moves: it has no live constraint, solver, "
        "driven channel or curve handle of its own.",
    .harm =
        "That is right for tips and helpers. It is wrong for a bone that should bend, such as a twist bone whose constraint was "
        "forgotten: the skin then folds in one place.",
    .mend = "Give it a constraint of its own, if it should bend.",
    .find = find,
};

}  // namespace ligament::checks
