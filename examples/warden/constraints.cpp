// What of the marsh warden turns by itself? Constraints as VRMC_node_constraint 1.0 has them, at most one a node.
#include "warden.hpp"

namespace warden {

namespace {

void constrain(Warden& warden, const std::string& owner, const std::string& kind, Json settings, const std::string& source,
               double weight) {
    settings["source"] = node_named(warden, source);
    settings["weight"] = weight;
    warden.nodes[node_named(warden, owner)].constraint = {{kind, settings}};
}

}  // namespace

void add_constraints(Warden& warden) {
    for (const std::string suffix : {"_l", "_r"}) {
        constrain(warden, "upper_arm_twist" + suffix, "roll", {{"rollAxis", "X"}}, "lower_arm" + suffix, 0.25);
        constrain(warden, "lower_arm_twist" + suffix, "roll", {{"rollAxis", "X"}}, "hand" + suffix, 0.5);
    }
    constrain(warden, "hood", "rotation", Json::object(), "head", 0.5);
    constrain(warden, "lantern_lens", "aim", {{"aimAxis", "PositiveZ"}}, "look_target", 1);
}

}  // namespace warden
