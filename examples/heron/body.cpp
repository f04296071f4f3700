// The world control, the trunk, the crop and the tail.
#include "heron.hpp"

namespace heron {

using namespace ligament;

namespace {

constexpr Vec3 across{1, 0, 0};  // the hinge of everything in the middle

void add_trunk(Sketch& sketch) {
    const Stick pelvis = stick({0, 0.5, -0.12}, {0, 0.53, -0.04}, across);
    const Stick loin = stick({0, 0.53, -0.04}, {0, 0.555, 0.03}, across);
    const Stick back = stick({0, 0.555, 0.03}, {0, 0.57, 0.09}, across);
    const Stick chest = stick({0, 0.57, 0.09}, {0, 0.573, 0.15}, across);

    sketch.group = "root";
    const BoneId world = add_bone(sketch, "world", Role::control, none, upright({0, 0, 0}, 0.3));
    const BoneId body_ctl = add_bone(sketch, "body_ctl", Role::control, world, upright({0, 0.52, -0.03}, 0.2));
    sketch.group = "body";
    const BoneId pelvis_ctl = add_bone(sketch, "pelvis_ctl", Role::control, body_ctl, pelvis);
    const BoneId back_ctl = add_bone(sketch, "back_ctl", Role::control, pelvis_ctl, back);
    const BoneId chest_ctl = add_bone(sketch, "chest_ctl", Role::control, back_ctl, chest);

    const BoneId pelvis_mech = add_bone(sketch, "pelvis_mech", Role::mechanism, pelvis_ctl, pelvis);
    const BoneId loin_mech = add_bone(sketch, "loin_mech", Role::mechanism, pelvis_mech, loin);
    constrain(sketch, loin_mech, "reach", ConstraintKind::stretch, {from(back_ctl)}).axis = lengthwise;
    constrain(sketch, loin_mech, "twist", ConstraintKind::roll, {from(back_ctl)}, number(0.5)).axis = lengthwise;
    const BoneId back_mech = add_bone(sketch, "back_mech", Role::mechanism, back_ctl, back);
    const BoneId chest_mech = add_bone(sketch, "chest_mech", Role::mechanism, chest_ctl, chest);

    BoneId skin = add_deform_bone(sketch, "pelvis", world, pelvis_mech);
    skin = add_deform_bone(sketch, "loin", skin, loin_mech);
    skin = add_deform_bone(sketch, "back", skin, back_mech);
    add_deform_bone(sketch, "chest", skin, chest_mech);
}

// The crop swells with the frogs in it.
void add_crop(Sketch& sketch) {
    const BoneId chest_mech = bone_named(sketch, "chest_mech");
    const PropertyId fill = add_property(sketch, "crop_fill", bone_named(sketch, "chest_ctl"), 0, 1);
    const BoneId crop =
        add_bone(sketch, "crop_mech", Role::mechanism, chest_mech, stick({0, 0.555, 0.13}, {0, 0.535, 0.17}, across));
    drive(sketch, crop, scale_x, expression(sketch, "1 + 0.6 * fill", {read_property("fill", fill)}));
    drive(sketch, crop, scale_y, expression(sketch, "1 + 0.3 * fill", {read_property("fill", fill)}));
    drive(sketch, crop, scale_z, expression(sketch, "1 + 0.6 * fill", {read_property("fill", fill)}));
    add_deform_bone(sketch, "crop", bone_named(sketch, "chest"), crop);
}

// One feather: it spreads about its own X, which is square to the fan, so that one sign serves both sides.
void add_tail_feather(Sketch& sketch, const Side& side, const std::string& base, const Stick& left, double spread,
                      PropertyId fan) {
    const BoneId feather =
        add_bone(sketch, side.name(base + "_mech"), Role::mechanism, bone_named(sketch, "tail_mech"), side.place(left));
    add_deform_bone(sketch, side.name(base), bone_named(sketch, "tail"), feather);
    if (spread == 0) return;
    const std::array<double, 2> shut{0, 0}, open{1, spread};
    drive(sketch, feather, rotation_x, curve(sketch, {shut, open}, read_property("", fan)));
}

void add_tail(Sketch& sketch) {
    sketch.group = "tail";
    const Vec3 root{0, 0.49, -0.17}, square{0, 0.94, -0.34};
    const Stick tail = stick({0, 0.5, -0.12}, root, across);
    const BoneId tail_ctl = add_bone(sketch, "tail_ctl", Role::control, bone_named(sketch, "pelvis_mech"), tail);
    const PropertyId fan = add_property(sketch, "tail_fan", tail_ctl, 0, 1);
    const BoneId tail_mech = add_bone(sketch, "tail_mech", Role::mechanism, tail_ctl, tail);
    add_deform_bone(sketch, "tail", bone_named(sketch, "pelvis"), tail_mech);

    add_tail_feather(sketch, {}, "tail_feather_middle", stick(root, {0, 0.445, -0.3}, across), 0, fan);
    for (const Side& side : both_sides()) {
        const Vec3 inner{0.008, 0.49, -0.168}, outer{0.016, 0.492, -0.164};
        add_tail_feather(sketch, side, "tail_feather_inner", stick(inner, {0.03, 0.447, -0.293}, square), -0.2, fan);
        add_tail_feather(sketch, side, "tail_feather_outer", stick(outer, {0.057, 0.453, -0.278}, square), -0.4, fan);
    }
}

}  // namespace

void add_body(Sketch& sketch) {
    add_trunk(sketch);
    add_crop(sketch);
    add_tail(sketch);
}

}  // namespace heron
