// Which joints of skins deform nothing?
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    add_remarks(checked.rig, Remark::Kind::joint_unweighted, self, "", findings);
}

}  // namespace

extern constinit const Check joint_unweighted{
    .name = "joint-unweighted",
    .severity = Severity::note,
    .summary = "joints of a skin that no vertex is weighted to: end tips, ancestors of weighted joints, the rest",
    .what =
        "These joints stand in a skin, but no vertex is weighted to them: they are mechanism bones. End tips show where a chain "
        "ends. Ancestors of weighted joints carry these. The rest are often controls, targets and helpers that an exporter wrote "
        "along; or a bone whose weights were forgotten.",
    .harm = "Engines pay for each joint of a skin.",
    .mend = "Leave out of the skin what it does not need, and weight the bone that was forgotten.",
    .find = find,
};

}  // namespace ligament::checks
