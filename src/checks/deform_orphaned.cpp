// Which deform bones does no control move?
#include <algorithm>

#include "words.hpp"

namespace ligament::checks {

namespace {

// What could move the bone, by name; the rigger looks there first.
std::vector<std::string> ways_in(const Rig& rig, const Bone& bone) {
    std::vector<std::string> ways;
    if (bone.parent != none && bone.from_parent != 0) ways.push_back("parent " + quoted(rig.bones[bone.parent].name));
    for (const ChannelValue& channel : bone.channels)
        if (channel.value.is_driven()) ways.push_back("driven channel " + std::string(channel_name(channel.channel)));
    for (const Constraint& constraint : bone.constraints)
        if (!constraint.is_inert()) ways.push_back("constraint " + quoted(constraint.name));
    if (bone.curve) ways.push_back("its curve handles");
    return ways;
}

std::string reason_for(const Rig& rig, const Bone& bone) {
    const std::vector<std::string> ways = ways_in(rig, bone);
    if (ways.empty()) return "it takes nothing from a parent and has no live constraint or driver of its own";
    std::string reason = ways.size() == 1 ? "" : ways.size() == 2 ? "neither " : "none of ";
    const std::size_t shown = std::min(ways.size(), listed_at_most);
    for (std::size_t i = 0; i < shown; ++i) {
        if (i > 0) reason += ways.size() == 2 ? " nor " : ", ";
        reason += ways[i];
    }
    if (shown < ways.size()) reason += " (showing " + std::to_string(shown) + " of " + std::to_string(ways.size()) + ")";
    return reason + (ways.size() == 1 ? " brings no control's motion" : " brings a control's motion");
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const bool any_control =
        std::any_of(checked.rig.bones.begin(), checked.rig.bones.end(), [](const Bone& bone) { return bone.control; });
    for (const Attachment& attachment : checked.facts.attachment.deform) {
        if (attachment.verdict != Verdict::orphaned) continue;
        const Bone& bone = checked.rig.bones[attachment.bone];
        Finding& finding = findings.emplace_back(finding_about(self, checked.rig, attachment.bone));
        finding.message = "no control reaches deform bone " + quoted(bone.name) + ": " + reason_for(checked.rig, bone);
        finding.hint = any_control ? "seat it on the mechanism bone that it belongs to, or take the role deform from it"
                                   : "no bone of this rig has the role control: mark the bones that animators pose";
    }
}

}  // namespace

extern constinit const Check deform_orphaned{
    .name = "deform-orphaned",
    .severity = Severity::error,
    .summary = "no control reaches this deform bone",
    .what =
        "In the default state no control's pose arrives at this deform bone: its constraint is missing, disabled, of weight 0 or "
        "replaced by a later one, or the chain above it is cut off from the controls.",
    .harm = "The skin that it moves stays behind while the character walks away, or collapses in the engine.",
    .mend =
        "Give the bone its constraint to the mechanism bone that lies exactly on it, or parent it; a bone that is not meant to "
        "move skin should not be a deform bone.",
    .find = find,
};

}  // namespace ligament::checks
