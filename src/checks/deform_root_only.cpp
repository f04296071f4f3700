// Which deform bones move with nothing but the root controls?
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const AttachmentFacts& facts = checked.facts.attachment;
    for (const Attachment& attachment : facts.deform) {
        if (attachment.verdict != Verdict::root_only) continue;
        const std::vector<BoneId>& controls = facts.controls_listed ? attachment.controls : facts.root_controls;
        Finding& finding = findings.emplace_back(finding_about(self, checked.rig, attachment.bone));
        finding.message = "deform bone " + quoted(checked.rig.bones[attachment.bone].name) + " moves only with " +
                          (controls.size() == 1 ? "the root control " : "the root controls ") + listed(checked.rig, controls);
        finding.hint = "attach it to the limb that it belongs to; if it is meant to stand still on the root, leave it";
    }
}

}  // namespace

extern constinit const Check deform_root_only{
    .name = "deform-root-only",
    .severity = Severity::warning,
    .summary = "it moves only with the root controls",
    .what =
        "Other deform bones answer to controls of their own, this one only to the root controls, which move the whole character. "
        "Root controls are those that the rig lists under `roots`, else those that reach every deform bone that any control "
        "reaches.",
    .harm =
        "Most often its constraint was forgotten or points at the wrong chain, and it still follows the root through its parent. "
        "It looks right until an animator bends that limb.",
    .mend = "Let it read the mechanism bone of its limb.",
    .find = find,
};

}  // namespace ligament::checks
