// The long neck: two bent bones make its S, and a chain runs along them.
#include "heron.hpp"
#include "limb.hpp"

namespace heron {

using namespace ligament;

namespace {

constexpr Vec3 across{1, 0, 0};
constexpr std::array<Vec3, 7> joints{{{0, 0.575, 0.14},
                                      {0, 0.625, 0.185},
                                      {0, 0.675, 0.19},
                                      {0, 0.725, 0.16},
                                      {0, 0.775, 0.13},
                                      {0, 0.825, 0.13},
                                      {0, 0.865, 0.155}}};

// A bone of the neck that is bent between two handles, and reaches from one control to the next.
BoneId add_bow(Sketch& sketch, const std::string& name, BoneId parent, const Stick& place, BoneId end, BoneCurve handles) {
    const BoneId bow = add_bone(sketch, name, Role::mechanism, parent, place);
    constrain(sketch, bow, "reach", ConstraintKind::stretch, {from(end)}).axis = lengthwise;
    handles.segments = 12;
    sketch.rig.bones[bow].curve = handles;
    return bow;
}

}  // namespace

void add_neck(Sketch& sketch) {
    sketch.group = "neck";
    const BoneId chest_ctl = bone_named(sketch, "chest_ctl");
    const Stick base = stick(joints[0], joints[1], across), top = stick(joints[6], {0, 0.9, 0.177}, across);
    const Stick low = stick(joints[0], joints[3], across), high = stick(joints[3], joints[6], across);
    const Stick middle = stick(joints[3], joints[4], across);

    const BoneId base_ctl = add_bone(sketch, "neck_base_ctl", Role::control, chest_ctl, base);
    const BoneId middle_ctl = add_bone(sketch, "neck_middle_ctl", Role::control, base_ctl, middle);
    const BoneId top_ctl = add_bone(sketch, "neck_top_ctl", Role::control, base_ctl, top);
    const PropertyId space = add_switch(sketch, "neck_space", bone_named(sketch, "body_ctl"), {"chest", "world"});
    add_spaces(sketch, top_ctl, space, {from(chest_ctl), from(bone_named(sketch, "world"))});

    const BoneId base_handle = add_bone(sketch, "neck_base_handle", Role::mechanism, base_ctl, part_of(base, 0, 0.5));
    const BoneId middle_handle = add_bone(sketch, "neck_middle_handle", Role::mechanism, middle_ctl, part_of(middle, 0, 0.5));
    const BoneId top_handle = add_bone(sketch, "neck_top_handle", Role::mechanism, top_ctl, part_of(top, 0, 0.5));
    const BoneId low_bow = add_bow(sketch, "neck_low_bow", base_ctl, low, middle_ctl, {1, base_handle, middle_handle, {}});
    const BoneId high_bow = add_bow(sketch, "neck_high_bow", middle_ctl, high, top_ctl, {1, middle_handle, top_handle, {}});

    std::array<BoneId, 6> chain{};
    for (std::size_t i = 0; i < chain.size(); ++i) {
        const BoneId parent = i == 0 ? bone_named(sketch, "chest_mech") : chain[i - 1];
        const std::string name = "neck_" + std::to_string(i + 1) + "_mech";
        chain[i] = add_bone(sketch, name, Role::mechanism, parent, stick(joints[i], joints[i + 1], across));
    }
    std::vector<Source> bows{from(low_bow), from(high_bow)};
    for (Source& bow : bows) bow.curved = true;
    constrain(sketch, chain.back(), "along", ConstraintKind::path, bows).chain = static_cast<std::uint32_t>(chain.size());

    BoneId skin = bone_named(sketch, "chest");
    for (std::size_t i = 0; i < chain.size(); ++i)
        skin = add_deform_bone(sketch, "neck_" + std::to_string(i + 1), skin, chain[i]);
}

}  // namespace heron
