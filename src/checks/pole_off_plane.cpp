// Which poles would turn their chain as soon as the solver is switched on?
#include "common.hpp"
#include "value_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

std::string where_words(const RestChain& chain) {
    if (chain.pole_on_line) return "lies on the line from the chain's root to its end, so that it points to no side";
    if (*chain.pole_angle > 90)
        return "lies on the other side than the one to which the chain is bent at rest, " + measured_words(*chain.pole_angle, 1) +
               " degrees about the chain: it would flip";
    return "lies " + measured_words(*chain.pole_angle, 1) +
           " degrees beside the plane in which the chain is bent at rest: it would turn";
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    const Thresholds& thresholds = checked.rules.thresholds;
    for (const RestChain& chain : checked.common.rest_chains()) {
        const bool is_off = chain.pole_on_line || (chain.pole_angle && *chain.pole_angle > thresholds.pole_angle);
        if (!is_off || chain.most_turned < thresholds.straight_angle) continue;
        Finding& finding = findings.emplace_back(finding_of(self, constraint_of(rig, checked.dependencies, chain.solver).place));
        finding.bones = {chain.bones.back()};
        finding.maker = constraint_name(rig, checked.dependencies, chain.solver);
        finding.message =
            "the pole " + quoted(rig.bones[chain.pole].name) + " of solver " + quoted(finding.maker) + " " + where_words(chain);
        finding.hint = "put it into the plane of root, bend and end of the chain, on the side of the bend";
    }
}

}  // namespace

extern constinit const Check pole_off_plane{
    .name = "pole-off-plane",
    .severity = Severity::warning,
    .summary = "the pole of a solver lies beside the plane in which its chain is bent at rest",
    .what =
        "At rest the chain of an ik solver lies in a plane: that of its root, its bend (the joint farthest from the line root to "
        "end) and its end. The pole lies beside the half of that plane on which the bend is, by more than the threshold "
        "pole_angle "
        "(one degree unless the rules say otherwise), or on the line from root to end. Looked at are chains of two bones or more "
        "that all have a rest, are bent, and whose joints lie in one plane.",
    .harm =
        "The solver turns the plane of the chain to the pole: as soon as it is switched on, the limb turns out of its rest pose, "
        "and with a pole on the far side elbow or knee flip.",
    .mend = "Put the pole in front of the bend: from the line root to end through the bend, and on.",
    .find = find,
};

}  // namespace ligament::checks
