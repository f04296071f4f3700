// Which bones get the same motion twice?
#include "doubles.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

std::string parts_words(Parts parts) {
    std::string words;
    if (parts & position_part) words += "position";
    if (parts & rotation_part) words += std::string(words.empty() ? "" : parts & scale_part ? ", " : " and ") + "rotation";
    if (parts & scale_part) words += std::string(words.empty() ? "" : " and ") + "scale";
    return words;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    for (const DoubleTransform& found : find_double_transforms(rig, checked.dependencies, checked.facts.switches.switches)) {
        const Constraint& constraint = constraint_of(rig, checked.dependencies, found.constraint);
        const BoneId owner = checked.dependencies.constraints[found.constraint].bone;
        std::vector<BoneId> read;
        for (std::uint32_t source : found.sources) read.push_back(constraint.sources[source].bone);
        Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
        finding.bones = {owner};
        finding.maker = constraint_name(rig, checked.dependencies, found.constraint);
        finding.message = "additive constraint " + quoted(finding.maker) + " adds the " + parts_words(found.parts) + " of " +
                          listed(rig, read) + ", which " + quoted(rig.bones[owner].name) +
                          " takes over already from its parent " + quoted(rig.bones[rig.bones[owner].parent].name);
        finding.hint = "take the constraint away, or keep the parent's " + parts_words(found.parts) + " out with from_parent";
    }
}

}  // namespace

extern constinit const Check double_transform{
    .name = "double-transform",
    .severity = Severity::warning,
    .summary = "an additive constraint reads a bone that the owner's own parent chain already follows: the motion arrives twice",
    .what =
        "An additive constraint of final space adds the position, rotation or scale of a bone, and the parent of its owner hands "
        "on "
        "the very same part of that bone: it is that bone, hangs below it, or follows it by constraints. In local space turns "
        "add "
        "up joint by joint on purpose, as in a curl, and do not count; nor does what a custom constraint reads.",
    .harm =
        "The motion arrives twice: the bone turns by twice the angle of its control or runs ahead of it, and looks right only at "
        "rest.",
    .mend = "Take the constraint away, hang the bone elsewhere, or keep that part of the parent out.",
    .find = find,
};

}  // namespace ligament::checks
