// Which properties steer more than one person can keep in mind?
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const std::size_t limit = checked.rules.thresholds.fan_out;
    for (const FanOut& fan_out : checked.facts.fan_out) {
        if (fan_out.targets() <= limit) continue;
        Finding& finding = findings.emplace_back(finding_about_property(self, checked.rig, fan_out.property));
        finding.message = "property " + quoted(checked.rig.properties[fan_out.property].name) + " reaches " +
                          std::to_string(fan_out.targets()) + " targets, more than " + std::to_string(limit) + ": " +
                          counted(fan_out.weights.size(), "weight") + ", " + counted(fan_out.channels.size(), "channel") + ", " +
                          std::to_string(fan_out.properties.size()) +
                          (fan_out.properties.size() == 1 ? " property" : " properties");
        finding.hint = "let it drive a few properties with names of their own, and these the rest";
    }
}

}  // namespace

extern constinit const Check fan_out_high{
    .name = "fan-out-high",
    .severity = Severity::note,
    .summary = "a property reaches more than 64 targets",
    .what =
        "Through drivers and driven properties this property reaches more weights, channels and properties than a project "
        "allows: 64, where its rules file says nothing else.",
    .harm =
        "Nobody can tell any more what turning it does, each change of it wakes a large part of the rig, and a driver forgotten "
        "among so many goes unseen.",
    .mend =
        "Split it by limb, or put driven properties with telling names in between. A rig with one main switch may live with it.",
    .find = find,
};

}  // namespace ligament::checks
