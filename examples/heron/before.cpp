// What was the bird like a week ago? The revision before this one, for looking at what changed.
#include <algorithm>

#include "heron.hpp"

namespace heron {

using namespace ligament;

namespace {

Bone& bone_of(Sketch& sketch, std::string_view name) { return sketch.rig.bones[bone_named(sketch, name)]; }

Constraint& constraint_of(Sketch& sketch, std::string_view bone, std::string_view name) {
    auto& stack = bone_of(sketch, bone).constraints;
    return *std::find_if(stack.begin(), stack.end(), [&](const Constraint& constraint) { return constraint.name == name; });
}

// The left wing was called the pinion: its bones, its group and its switches.
void call_the_wing_pinion(Sketch& sketch) {
    const auto rename = [](std::string& name) {
        if (name.starts_with("wing_") && name.ends_with("_l")) name.replace(0, 4, "pinion");
    };
    for (Bone& bone : sketch.rig.bones) {
        rename(bone.name);
        rename(bone.group);
    }
    for (Property& property : sketch.rig.properties) rename(property.name);
}

// The bones made last are the back toe of the right foot.
void have_no_back_toe(Sketch& sketch) {
    sketch.rig.bones.resize(bone_named(sketch, "toe_back_ctl_r"));
    sketch.places.resize(sketch.rig.bones.size());
}

void have_a_plume(Sketch& sketch) {
    sketch.group = "body";
    add_bone(sketch, "breast_plume", Role::deform, none, stick({0, 0.54, 0.15}, {0, 0.47, 0.17}, {1, 0, 0}));
}

void have_no_driver_on_a_forearm(Sketch& sketch) { constraint_of(sketch, "wing_forearm_mech_r", "fk").weight = number(1); }

void hang_the_hock_below_its_limb(Sketch& sketch) {
    const BoneId hock = bone_named(sketch, "hock_ctl_l"), shin = bone_named(sketch, "shin_mech_l");
    sketch.rig.bones[hock].parent = shin;
    sketch.rig.bones[hock].rest = rest_between(sketch.places[shin], sketch.places[hock]);
}

void let_the_crest_lag_less(Sketch& sketch) { constraint_of(sketch, "crest_2_mech", "lag").weight = number(0.25); }

}  // namespace

void go_back_a_week(Sketch& sketch) {
    have_no_back_toe(sketch);
    have_a_plume(sketch);
    have_no_driver_on_a_forearm(sketch);
    hang_the_hock_below_its_limb(sketch);
    let_the_crest_lag_less(sketch);
    call_the_wing_pinion(sketch);
}

}  // namespace heron
