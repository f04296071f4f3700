// A leg: thigh, three-bone limb with its hock turned back, four toes.
#include "heron.hpp"
#include "limb.hpp"

namespace heron {

using namespace ligament;

namespace {

constexpr Vec3 across{1, 0, 0};
constexpr Vec3 hip{0.04, 0.49, -0.06}, knee{0.06, 0.415, 0}, hock{0.06, 0.235, -0.05}, ankle{0.06, 0.03, 0},
    sole{0.06, 0.008, 0.015};

struct Toe {
    std::string name;
    Vec3 tip;
    int bones = 1;
};

// Each bone of a toe curls with the property of its foot.
void add_toe(Sketch& sketch, const Side& side, const Toe& toe, BoneId foot_mech, BoneId foot_skin, PropertyId curl) {
    const Stick whole = stick(sole, toe.tip, across);
    const BoneId ctl = add_bone(sketch, side.name(toe.name + "_ctl"), Role::control, foot_mech, side.place(whole));
    BoneId parent = ctl, skin = foot_skin;
    for (int i = 0; i < toe.bones; ++i) {
        const std::string name = toe.name + (i == 0 ? "" : "_tip");
        const Stick place = part_of(whole, 1.0 * i / toe.bones, (i + 1.0) / toe.bones);
        parent = add_bone(sketch, side.name(name + "_mech"), Role::mechanism, parent, side.place(place));
        drive(sketch, parent, rotation_x, expression(sketch, "0.7 * curl", {read_property("curl", curl)}));
        skin = add_deform_bone(sketch, side.name(name), skin, parent);
    }
}

// The spaces of a foot: the world, the pelvis, or the thing the heron perches on.
void add_foot_spaces(Sketch& sketch, const Side& side, BoneId foot_ctl, BoneId world) {
    const PropertyId space =
        add_switch(sketch, side.name("leg_space"), bone_named(sketch, "body_ctl"), {"world", "pelvis", "perch"});
    Source perch;
    perch.object = find_object(sketch.rig, "perch");
    add_spaces(sketch, foot_ctl, space, {from(world), from(bone_named(sketch, "pelvis_ctl")), perch});
}

}  // namespace

void add_leg(Sketch& sketch, const Side& side) {
    sketch.group = side.name("leg");
    const BoneId world = bone_named(sketch, "world"), body_ctl = bone_named(sketch, "body_ctl");
    const Stick thigh = side.place(stick(hip, knee, across));
    const BoneId thigh_ctl = add_bone(sketch, side.name("thigh_ctl"), Role::control, bone_named(sketch, "pelvis_mech"), thigh);
    const BoneId thigh_mech = add_bone(sketch, side.name("thigh_mech"), Role::mechanism, thigh_ctl, thigh);

    LimbPlan plan;
    plan.names = {"shin", "tarsus", "foot"};
    plan.places = {stick(knee, hock, across), stick(hock, ankle, across), stick(ankle, sole, across)};
    plan.above = thigh_mech;
    plan.target = add_bone(sketch, side.name("foot_ctl"), Role::control, world, side.place(plan.places[2]));
    plan.pole =
        add_bone(sketch, side.name("hock_ctl"), Role::control, world, side.place(upright(pole_of(knee, hock, ankle, 0.3), 0.05)));
    plan.mode = add_switch(sketch, side.name("leg_mode"), body_ctl, {"ik", "fk"});
    add_foot_spaces(sketch, side, plan.target, world);
    const Limb limb = build_limb(sketch, side, plan);

    const BoneId thigh_skin = add_deform_bone(sketch, side.name("thigh"), bone_named(sketch, "pelvis"), thigh_mech);
    const auto skin = add_limb_skin(sketch, side, plan, limb, thigh_skin);
    const PropertyId curl = add_property(sketch, side.name("toe_curl"), plan.target, 0, 1);
    const std::vector<Toe> toes{{"toe_inner", {0.035, 0.006, 0.075}, 1},
                                {"toe_middle", {0.063, 0.006, 0.1}, 2},
                                {"toe_outer", {0.09, 0.006, 0.075}, 1},
                                {"toe_back", {0.058, 0.006, -0.045}, 1}};
    for (const Toe& toe : toes) add_toe(sketch, side, toe, limb.chain[2], skin[2], curl);
}

}  // namespace heron
