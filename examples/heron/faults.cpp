// What goes wrong with rigs in practice? Classic faults, planted one by one; heron-faulty.md lists them in this order.
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

// The bone keeps its place in the world.
void reparent(Sketch& sketch, std::string_view name, BoneId parent) {
    const BoneId bone = bone_named(sketch, name);
    sketch.rig.bones[bone].parent = parent;
    const Stick origin = upright({0, 0, 0}, 1);
    sketch.rig.bones[bone].rest = rest_between(parent == none ? origin : sketch.places[parent], sketch.places[bone]);
}

// The hand control was to follow the forearm: parented below the chain that reaches for it, its space switch left behind.
void hang_target_below_its_chain(Sketch& sketch) {
    bone_of(sketch, "wing_hand_ctl_r").constraints.clear();
    reparent(sketch, "wing_hand_ctl_r", bone_named(sketch, "wing_forearm_ik_r"));
}

void hang_pole_below_its_limb(Sketch& sketch) { reparent(sketch, "hock_ctl_l", bone_named(sketch, "shin_mech_l")); }

void let_foot_follow_its_own_leg(Sketch& sketch) {
    constraint_of(sketch, "foot_ctl_r", "space").sources[1].bone = bone_named(sketch, "tarsus_mech_r");
}

void aim_tail_at_its_own_feather(Sketch& sketch) {
    const BoneId feather = bone_named(sketch, "tail_feather_middle_mech");
    constrain(sketch, bone_named(sketch, "tail_mech"), "toward", ConstraintKind::aim, {from(feather)}).axis = lengthwise;
}

// One toe takes its turn from the other, which takes its place from the first: no channel needs itself.
void cross_two_toes(Sketch& sketch) {
    const BoneId inner = bone_named(sketch, "toe_inner_mech_r"), middle = bone_named(sketch, "toe_middle_mech_r");
    constrain(sketch, inner, "turn_with", ConstraintKind::rotation, {from(middle)}, number(0.5));
    constrain(sketch, middle, "stay_with", ConstraintKind::position, {from(inner)}, number(0.1));
}

void put_slider_on_what_it_moves(Sketch& sketch) { reparent(sketch, "crest_slide", bone_named(sketch, "crest_lift")); }

void drive_two_properties_by_each_other(Sketch& sketch) {
    const BoneId face_ctl = bone_named(sketch, "face_ctl");
    const PropertyId alert = add_property(sketch, "alert", face_ctl, 0, 1), calm = add_property(sketch, "calm", face_ctl, 0, 1);
    sketch.rig.properties[alert].value = expression(sketch, "1 - calm", {read_property("calm", calm)});
    sketch.rig.properties[calm].value = expression(sketch, "1 - alert", {read_property("alert", alert)});
}

void forget_to_attach_a_plume(Sketch& sketch) {
    sketch.group = "body";
    add_bone(sketch, "breast_plume", Role::deform, none, stick({0, 0.54, 0.15}, {0, 0.47, 0.17}, {1, 0, 0}));
}

void detach_a_lid(Sketch& sketch) {
    reparent(sketch, "lid_r", none);
    constraint_of(sketch, "lid_r", "seat").enabled = false;
}

void leave_a_feather_under_the_world(Sketch& sketch) {
    reparent(sketch, "tail_feather_outer_r", bone_named(sketch, "world"));
    bone_of(sketch, "tail_feather_outer_r").constraints.clear();
}

void disable_a_twist_seat(Sketch& sketch) { constraint_of(sketch, "wing_forearm_twist_2_r", "seat").enabled = false; }

void leave_the_switch_of_a_renamed_limb(Sketch& sketch) {
    add_switch(sketch, "arm_mode_l", bone_named(sketch, "body_ctl"), {"ik", "fk"});
}

void flatten_a_curve(Sketch& sketch) {
    const Value& value = bone_of(sketch, "tail_feather_inner_mech_l").channels.front().value;
    for (auto& point : sketch.rig.drivers[value.driver].curve) point[1] = 0;
}

void lose_the_input_of_an_expression(Sketch& sketch) {
    const Input blink = read_property("blink", property_named(sketch, "blink"));
    constraint_of(sketch, "crest_2_mech", "lag").weight = expression(sketch, "0.5", {blink});
}

// The FK bone that it read was deleted and the constraint put on what was at hand.
void let_a_forearm_read_the_world(Sketch& sketch) {
    constraint_of(sketch, "wing_forearm_mech_l", "fk").sources.front().bone = bone_named(sketch, "world");
}

void forget_the_driver_of_an_arm(Sketch& sketch) { constraint_of(sketch, "wing_arm_mech_r", "fk").weight = number(1); }

// One slider wired into four channels of each feather, where one bone above the feathers would do.
void wire_one_slider_into_every_feather(Sketch& sketch) {
    const PropertyId ruffle = add_property(sketch, "ruffle", bone_named(sketch, "chest_ctl"), 0, 1);
    for (BoneId bone = 0; bone < sketch.rig.bones.size(); ++bone) {
        const std::string& name = sketch.rig.bones[bone].name;
        const bool feather = name.starts_with("tail_feather") || name.starts_with("primary") || name.starts_with("secondary");
        if (!feather || !sketch.rig.bones[bone].is_mechanism()) continue;
        drive(sketch, bone, position_z, expression(sketch, "0.004 * ruffle", {read_property("ruffle", ruffle)}));
        for (const std::uint8_t channel : {scale_x, scale_y, scale_z})
            drive(sketch, bone, channel, expression(sketch, "1 + 0.15 * ruffle", {read_property("ruffle", ruffle)}));
    }
}

// The handle was duplicated from the head's own bone, and its constraint with it.
void leave_the_constraint_of_a_duplicated_bone(Sketch& sketch) {
    const BoneId handle = bone_named(sketch, "neck_top_handle");
    constrain(sketch, handle, "turn", ConstraintKind::rotation, {from(bone_named(sketch, "head_ctl"))});
}

// The chain was to begin at the shoulder, under which it does not hang any more.
void lose_the_parent_of_a_chain(Sketch& sketch) {
    reparent(sketch, "wing_arm_ik_l", none);
    constraint_of(sketch, "wing_forearm_ik_l", "reach").chain = 3;
}

void twist_the_loin_twice(Sketch& sketch) {
    const Source back = from(bone_named(sketch, "back_ctl"));
    constrain(sketch, bone_named(sketch, "loin_mech"), "twist_2", ConstraintKind::roll, {back}, number(0.5)).axis = lengthwise;
}

void turn_a_vertebra_inside_the_neck(Sketch& sketch) {
    const Source middle = from(bone_named(sketch, "neck_middle_ctl"));
    constrain(sketch, bone_named(sketch, "neck_3_mech"), "nod", ConstraintKind::rotation, {middle}, number(0.2));
}

void add_what_the_parent_brings_along(Sketch& sketch) {
    const Source head = from(bone_named(sketch, "head_ctl"));
    constrain(sketch, bone_named(sketch, "beak_upper_mech"), "nod", ConstraintKind::rotation, {head}).additive = true;
}

void let_a_control_read_the_skin(Sketch& sketch) {
    constraint_of(sketch, "look_ctl", "keep_off").sources.front().bone = bone_named(sketch, "head");
}

void leave_a_control_without_use(Sketch& sketch) {
    sketch.group = "face";
    add_bone(sketch, "throat_ctl", Role::control, bone_named(sketch, "face_ctl"), upright({0, 0.98, 0.24}, 0.02));
}

void overfill_the_crop(Sketch& sketch) { sketch.rig.properties[property_named(sketch, "crop_fill")].initial = 1.5; }

// Somebody moved the pole aside to reach it more easily.
void move_a_pole_aside(Sketch& sketch) {
    const BoneId pole = bone_named(sketch, "hock_ctl_r");
    sketch.places[pole].origin[0] -= 0.08;
    reparent(sketch, "hock_ctl_r", bone_named(sketch, "world"));
}

// The jaw was moved after its deform bone had been placed.
void move_a_bone_from_under_its_skin(Sketch& sketch) {
    const BoneId jaw = bone_named(sketch, "jaw");
    sketch.places[jaw].origin[1] -= 0.004;
    reparent(sketch, "jaw", bone_named(sketch, "head"));
}

void mend_a_range_on_one_side(Sketch& sketch) { constraint_of(sketch, "lid_slide_r", "stops").range = {{0, 0.03}}; }

// The right wing's patagium was copied from the left one and reads one of its bones still.
void leave_a_copied_flap_on_the_other_wing(Sketch& sketch) {
    constraint_of(sketch, "patagium_mech_r", "toward").sources.front().bone = bone_named(sketch, "wing_hand_mech_l");
}

}  // namespace

void plant_faults(Sketch& sketch) {
    hang_target_below_its_chain(sketch);
    hang_pole_below_its_limb(sketch);
    let_foot_follow_its_own_leg(sketch);
    aim_tail_at_its_own_feather(sketch);
    cross_two_toes(sketch);
    put_slider_on_what_it_moves(sketch);
    drive_two_properties_by_each_other(sketch);
    forget_to_attach_a_plume(sketch);
    detach_a_lid(sketch);
    leave_a_feather_under_the_world(sketch);
    disable_a_twist_seat(sketch);
    leave_the_switch_of_a_renamed_limb(sketch);
    flatten_a_curve(sketch);
    lose_the_input_of_an_expression(sketch);
    let_a_forearm_read_the_world(sketch);
    forget_the_driver_of_an_arm(sketch);
    wire_one_slider_into_every_feather(sketch);
    leave_the_constraint_of_a_duplicated_bone(sketch);
    lose_the_parent_of_a_chain(sketch);
    twist_the_loin_twice(sketch);
    turn_a_vertebra_inside_the_neck(sketch);
    add_what_the_parent_brings_along(sketch);
    let_a_control_read_the_skin(sketch);
    leave_a_control_without_use(sketch);
    overfill_the_crop(sketch);
    move_a_pole_aside(sketch);
    move_a_bone_from_under_its_skin(sketch);
    mend_a_range_on_one_side(sketch);
    leave_a_copied_flap_on_the_other_wing(sketch);
}

}  // namespace heron
