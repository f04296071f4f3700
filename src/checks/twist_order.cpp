// Which numbered bones along a segment stand in the wrong order?
#include "along_segment.hpp"
#include "number.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    for (const OutOfOrder& pair : find_out_of_order(rig, checked.dependencies)) {
        const BoneId bone = checked.dependencies.constraints[pair.after].bone;
        const BoneId before = checked.dependencies.constraints[pair.before].bone;
        Finding& finding = findings.emplace_back(finding_of(self, constraint_of(rig, checked.dependencies, pair.after).place));
        finding.bones = {bone};
        finding.maker = constraint_name(rig, checked.dependencies, pair.after);
        finding.message = quoted(rig.bones[bone].name) + " stands along " + quoted(rig.bones[pair.segment].name) + " at " +
                          number_text(pair.after_at) + ", not beyond " + quoted(rig.bones[before].name) + " at " +
                          number_text(pair.before_at);
        finding.hint = "number them from the base of the segment to its tip, or give them their places in that order";
    }
}

}  // namespace

extern constinit const Check twist_order{
    .name = "twist-order",
    .severity = Severity::warning,
    .summary = "numbered bones along a segment whose places do not rise with their numbers",
    .what =
        "Bones whose names are equal but for one number take their places along the same bone (at) by a transform or position "
        "constraint, and the one with the higher number does not stand beyond the one before it. Bones that hang under a segment "
        "without reading a place along it are not looked at: names and places do not say that they are twist bones.",
    .harm =
        "Shares of the twist are given out by number: out of order, the skin winds up and back again along the segment; and a "
        "copied bone that kept its place weights nothing.",
    .mend = "Give them places that rise with their numbers.",
    .find = find,
};

}  // namespace ligament::checks
