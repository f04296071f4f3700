// Head, beak, eyes, lids and crest, with the sliders that drive them.
#include "heron.hpp"

namespace heron {

using namespace ligament;

namespace {

constexpr Vec3 across{1, 0, 0}, ahead{0, 0, 1}, up{0, 1, 0};
constexpr double slide = 0.02;  // metres that a slider runs

// The head rides on the neck; with the switch at `level` it keeps level while the body moves, as herons do.
void add_skull(Sketch& sketch) {
    const Stick head = stick({0, 0.865, 0.155}, {0, 0.872, 0.215}, across);
    const BoneId neck_top = bone_named(sketch, "neck_top_ctl"), world = bone_named(sketch, "world");
    const PropertyId level = add_switch(sketch, "head_level", bone_named(sketch, "body_ctl"), {"neck", "level"});
    const BoneId frame = add_bone(sketch, "head_frame", Role::mechanism, neck_top, upright({0, 0.865, 0.155}, 0.05));
    const Value weight = expression(sketch, "level", {read_property("level", level)});
    constrain(sketch, frame, "level", ConstraintKind::rotation, {from(world)}, weight);
    const BoneId head_ctl = add_bone(sketch, "head_ctl", Role::control, frame, head);
    const BoneId head_mech = add_bone(sketch, "head_mech", Role::mechanism, bone_named(sketch, "neck_6_mech"), head);
    constrain(sketch, head_mech, "turn", ConstraintKind::rotation, {from(head_ctl)});
    add_deform_bone(sketch, "head", bone_named(sketch, "neck_6"), head_mech);
    const BoneId face_ctl = add_bone(sketch, "face_ctl", Role::control, head_ctl, upright({0, 0.96, 0.2}, 0.03));
    add_property(sketch, "blink", face_ctl, 0, 1);
}

// A control that runs from 0 to `slide` along its own Y.
BoneId add_slider(Sketch& sketch, const std::string& name, const Side& side, const Vec3& place) {
    const BoneId face_ctl = bone_named(sketch, "face_ctl");
    const BoneId slider = add_bone(sketch, side.name(name), Role::control, face_ctl, side.place(upright(place, slide)));
    Constraint& stop = constrain(sketch, slider, "stops", ConstraintKind::limit, {});
    stop.channels = position_channels;
    stop.range = {{0, slide}};
    stop.axes = 0b010;
    stop.space = Space::local;
    return slider;
}

void add_beak(Sketch& sketch) {
    const BoneId head_mech = bone_named(sketch, "head_mech"), head = bone_named(sketch, "head");
    const BoneId upper =
        add_bone(sketch, "beak_upper_mech", Role::mechanism, head_mech, stick({0, 0.872, 0.21}, {0, 0.86, 0.33}, across));
    add_deform_bone(sketch, "beak_upper", head, upper);
    const BoneId slider = add_slider(sketch, "jaw_slide", {}, {0, 0.98, 0.2});
    const BoneId jaw =
        add_bone(sketch, "jaw_mech", Role::mechanism, head_mech, stick({0, 0.862, 0.195}, {0, 0.852, 0.32}, across));
    drive(sketch, jaw, rotation_x, curve(sketch, {{0, 0}, {slide, 0.55}}, read_channel("", slider, position_y)));
    add_deform_bone(sketch, "jaw", head, jaw);
}

void add_eye(Sketch& sketch, const Side& side, BoneId look_ctl) {
    const BoneId head_mech = bone_named(sketch, "head_mech"), head = bone_named(sketch, "head");
    const Stick eye = side.place(stick({0.018, 0.881, 0.198}, {0.025, 0.8815, 0.204}, up));
    const Stick far = part_of(eye, 25, 30);  // straight ahead of the eye, so that aiming moves nothing at rest
    const BoneId aim_ctl = add_bone(sketch, side.name("eye_aim_ctl"), Role::control, look_ctl, far);
    const BoneId eye_mech = add_bone(sketch, side.name("eye_mech"), Role::mechanism, head_mech, eye);
    Source above = from(bone_named(sketch, "face_ctl"));
    above.use = Source::Use::up;
    constrain(sketch, eye_mech, "look", ConstraintKind::aim, {from(aim_ctl), above}).axis = lengthwise;
    add_deform_bone(sketch, side.name("eye"), head, eye_mech);

    const BoneId slider = add_slider(sketch, "lid_slide", side, {0.03, 0.97, 0.2});
    const PropertyId blink = property_named(sketch, "blink");
    const Stick edge = side.place(stick({0.018, 0.881, 0.198}, {0.026, 0.886, 0.2}, ahead));
    const BoneId lid = add_bone(sketch, side.name("lid_mech"), Role::mechanism, head_mech, edge);
    drive(sketch, lid, rotation_x,
          expression(sketch, "-clamp(blink + 50 * slide, 0, 1)",
                     {read_property("blink", blink), read_channel("slide", slider, position_y)}));
    add_deform_bone(sketch, side.name("lid"), head, lid);
}

void add_eyes(Sketch& sketch) {
    const BoneId look_ctl =
        add_bone(sketch, "look_ctl", Role::control, bone_named(sketch, "world"), upright({0, 0.88, 0.55}, 0.05));
    constrain(sketch, look_ctl, "keep_off", ConstraintKind::distance, {from(bone_named(sketch, "head_mech"))}).range = {{0.2, 5}};
    for (const Side& side : both_sides()) add_eye(sketch, side, look_ctl);
}

// The long plumes at the nape. The slider raises them; the second one lags behind the first.
void add_crest(Sketch& sketch) {
    const BoneId head_mech = bone_named(sketch, "head_mech");
    const Stick first = stick({0, 0.888, 0.165}, {0, 0.886, 0.105}, across),
                second = stick(tip_of(first), {0, 0.866, 0.05}, across);
    const BoneId slider = add_slider(sketch, "crest_slide", {}, {0, 0.98, 0.16});
    const BoneId lift = add_bone(sketch, "crest_lift", Role::mechanism, head_mech, part_of(first, 0, 0.3));
    drive(sketch, lift, rotation_x, curve(sketch, {{0, 0}, {slide, 0.9}}, read_channel("", slider, position_y)));
    const BoneId ctl_1 = add_bone(sketch, "crest_1_ctl", Role::control, lift, first);
    const BoneId ctl_2 = add_bone(sketch, "crest_2_ctl", Role::control, ctl_1, second);
    const BoneId mech_1 = add_bone(sketch, "crest_1_mech", Role::mechanism, ctl_1, first);
    const BoneId mech_2 = add_bone(sketch, "crest_2_mech", Role::mechanism, ctl_2, second);
    Constraint& lag = constrain(sketch, mech_2, "lag", ConstraintKind::custom, {from(ctl_1)}, number(0.5));
    lag.reads = lag.writes = rotation_channels;
    lag.label = "feather lag";
    const BoneId skin = add_deform_bone(sketch, "crest_1", bone_named(sketch, "head"), mech_1);
    add_deform_bone(sketch, "crest_2", skin, mech_2);
}

}  // namespace

void add_head(Sketch& sketch) {
    sketch.group = "head";
    add_skull(sketch);
    sketch.group = "face";
    add_beak(sketch);
    add_eyes(sketch);
    add_crest(sketch);
}

}  // namespace heron
