// Which chains have no side to bend to?
#include "common.hpp"
#include "value_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Thresholds& thresholds = checked.rules.thresholds;
    for (const RestChain& chain : checked.common.rest_chains()) {
        if (!(chain.most_turned < thresholds.straight_angle)) continue;
        Finding& finding =
            findings.emplace_back(finding_of(self, constraint_of(checked.rig, checked.dependencies, chain.solver).place));
        finding.bones = {chain.bones.back()};
        finding.maker = constraint_name(checked.rig, checked.dependencies, chain.solver);
        finding.message = "the chain of solver " + quoted(finding.maker) + " is straight at rest, from " +
                          quoted(checked.rig.bones[chain.bones.front()].name) + " to the end of " +
                          quoted(checked.rig.bones[chain.bones.back()].name) + ": it has no side to bend to";
        finding.hint = "bend it at rest, by " + measured_words(2 * thresholds.straight_angle, 3) +
                       " degrees or more, to the side to which it is to bend";
    }
}

}  // namespace

extern constinit const Check chain_straight{
    .name = "chain-straight",
    .severity = Severity::warning,
    .summary = "a solver's chain of two bones or more is straight at rest, so that it has no side to bend to",
    .what =
        "No bone of the chain of an ik solver turns against the one before it at rest by as much as the threshold straight_angle "
        "(half a degree unless the rules say otherwise). Looked at are chains of two bones or more that all have a rest; the "
        "last "
        "one ends at its tip, or at the target where it has none.",
    .harm =
        "A solver takes the side to which a chain bends from its rest pose. A straight one has none: hosts bend it to different "
        "sides, or leave it stiff until something else bends it, and it may flip from frame to frame.",
    .mend = "Move the middle joint a little to the side to which the limb bends, and let the pole lie on that side.",
    .find = find,
};

}  // namespace ligament::checks
