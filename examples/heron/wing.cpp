// A wing: shoulder, three-bone limb, patagium and the fan of flight feathers.
#include "heron.hpp"
#include "limb.hpp"

namespace heron {

using namespace ligament;

namespace {

constexpr Vec3 up{0, 1, 0};
constexpr Vec3 shoulder{0.03, 0.58, 0.09}, arm{0.075, 0.585, 0.075}, elbow{0.22, 0.6, -0.02}, wrist{0.4, 0.62, 0.06},
    hand_end{0.53, 0.625, 0.03};

// A control of the fan: feathers between two of them point between them. The frame folds the fan back with the wing.
BoneId add_fan_control(Sketch& sketch, const Side& side, const std::string& name, BoneId parent, const Stick& left,
                       const Value& fold) {
    const Stick place = side.place(left);
    const BoneId frame = add_bone(sketch, side.name(name + "_frame"), Role::mechanism, parent, place);
    drive(sketch, frame, rotation_x, fold);
    return add_bone(sketch, side.name(name + "_ctl"), Role::control, frame, place);
}

struct Fan {
    std::string name;
    int feathers = 0;
    Stick along;  ///< the bone in which they stand, on the left
    double length = 0;
    BoneId parent = none, skin_parent = none, inner = none, outer = none;
};

void add_feathers(Sketch& sketch, const Side& side, const Fan& fan) {
    for (int i = 0; i < fan.feathers; ++i) {
        const double share = (i + 0.5) / fan.feathers;
        Stick place = side.place(part_of(fan.along, 0.1 + 0.9 * share, 1));
        place.turn = blend(sketch.places[fan.inner].turn, sketch.places[fan.outer].turn, share);
        place.length = fan.length;
        const std::string name = fan.name + "_" + std::to_string(i + 1);
        const BoneId feather = add_bone(sketch, side.name(name + "_mech"), Role::mechanism, fan.parent, place);
        constrain(sketch, feather, "spread", ConstraintKind::rotation,
                  {from(fan.inner, number(1 - share)), from(fan.outer, number(share))});
        add_deform_bone(sketch, side.name(name), fan.skin_parent, feather);
    }
}

// The flap of skin before the elbow: half way between shoulder and wrist, it points to the wrist and thins as the wing opens.
void add_patagium(Sketch& sketch, const Side& side, const Limb& limb, BoneId parent, BoneId skin_parent, PropertyId reach) {
    Stick left = stick(arm, wrist, up);
    left = part_of(left, 0.5, 0.7);
    const BoneId flap = add_bone(sketch, side.name("patagium_mech"), Role::mechanism, parent, side.place(left));
    drive(sketch, flap, scale_x, expression(sketch, "1.4 - 0.4 * reach", {read_property("reach", reach)}));
    constrain(sketch, flap, "between", ConstraintKind::position,
              {from(limb.chain[0], number(0.5)), from(limb.chain[2], number(0.5))});
    constrain(sketch, flap, "toward", ConstraintKind::aim, {from(limb.chain[2])}).axis = lengthwise;
    add_deform_bone(sketch, side.name("patagium"), skin_parent, flap);
}

// How far the wing is stretched out, from 0 to 1; 1 at rest.
PropertyId add_reach(Sketch& sketch, const Side& side, BoneId shoulder_mech, BoneId hand_ctl) {
    const PropertyId reach = add_property(sketch, side.name("wing_reach"), hand_ctl, 0, 1);
    sketch.rig.properties[reach].value = expression(sketch, "span / 0.3", {read_distance("span", shoulder_mech, hand_ctl)});
    return reach;
}

void add_fans(Sketch& sketch, const Side& side, const LimbPlan& plan, const Limb& limb, const std::array<BoneId, 3>& skin,
              PropertyId reach) {
    const PropertyId fold = add_property(sketch, side.name("wing_fold"), plan.target, 0, 1);
    const auto folded = [&](const std::string& by) {
        return expression(sketch, by + " * fold + 0.4 * (1 - reach)",
                          {read_property("fold", fold), read_property("reach", reach)});
    };
    const BoneId forearm = limb.chain[1], hand = limb.chain[2];
    const Vec3 feather_root{0.24, 0.6, -0.02};
    const BoneId inner = add_bone(sketch, side.name("fan_elbow_ctl"), Role::control, forearm,
                                  side.place(stick(feather_root, {0.23, 0.59, -0.2}, up)));
    const BoneId middle = add_fan_control(sketch, side, "fan_wrist", hand, stick(wrist, {0.46, 0.605, -0.16}, up), folded("0.5"));
    const BoneId outer = add_fan_control(sketch, side, "fan_tip", hand, stick(hand_end, {0.78, 0.62, -0.06}, up), folded("1.1"));
    add_feathers(sketch, side, {"secondary", 3, plan.places[1], 0.18, forearm, skin[1], inner, middle});
    add_feathers(sketch, side, {"primary", 4, plan.places[2], 0.25, hand, skin[2], middle, outer});
}

}  // namespace

void add_wing(Sketch& sketch, const Side& side) {
    sketch.group = side.name("wing");
    const BoneId world = bone_named(sketch, "world"), chest_ctl = bone_named(sketch, "chest_ctl");
    const BoneId body_ctl = bone_named(sketch, "body_ctl");
    const Stick blade = side.place(stick(shoulder, arm, up));
    const BoneId shoulder_ctl =
        add_bone(sketch, side.name("shoulder_ctl"), Role::control, bone_named(sketch, "chest_mech"), blade);
    const BoneId shoulder_mech = add_bone(sketch, side.name("shoulder_mech"), Role::mechanism, shoulder_ctl, blade);

    LimbPlan plan;
    plan.names = {"wing_arm", "wing_forearm", "wing_hand"};
    plan.places = {stick(arm, elbow, up), stick(elbow, wrist, up), stick(wrist, hand_end, up)};
    plan.above = shoulder_mech;
    plan.target = add_bone(sketch, side.name("wing_hand_ctl"), Role::control, world, side.place(plan.places[2]));
    plan.pole = add_bone(sketch, side.name("wing_elbow_ctl"), Role::control, world,
                         side.place(upright(pole_of(arm, elbow, wrist, 0.3), 0.05)));
    plan.mode = add_switch(sketch, side.name("wing_mode"), body_ctl, {"ik", "fk"});
    const PropertyId space = add_switch(sketch, side.name("wing_space"), body_ctl, {"world", "chest"});
    add_spaces(sketch, plan.target, space, {from(world), from(chest_ctl)});
    const Limb limb = build_limb(sketch, side, plan);

    const PropertyId reach = add_reach(sketch, side, shoulder_mech, plan.target);
    const BoneId shoulder_skin = add_deform_bone(sketch, side.name("shoulder"), bone_named(sketch, "chest"), shoulder_mech);
    const auto skin = add_limb_skin(sketch, side, plan, limb, shoulder_skin);
    add_patagium(sketch, side, limb, shoulder_mech, shoulder_skin, reach);
    add_fans(sketch, side, plan, limb, skin, reach);
}

}  // namespace heron
