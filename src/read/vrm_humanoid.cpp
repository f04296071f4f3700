// Which nodes are the bones of a VRM humanoid, and of which limb?
#include <algorithm>

#include "draft.hpp"
#include "vrm.hpp"

namespace ligament {

namespace {

struct HumanBone {
    std::string_view name;
    HumanoidLimb limb;
};

using enum HumanoidLimb;

// Sides are told by "left" and "right" before these names.
constexpr std::array<HumanBone, 7> middle_bones{
    {{"hips", torso}, {"spine", torso}, {"chest", torso}, {"upperChest", torso}, {"neck", head}, {"head", head}, {"jaw", head}}};
constexpr std::array<HumanBone, 9> side_bones{{{"Eye", head},
                                               {"Shoulder", arm_left},
                                               {"UpperArm", arm_left},
                                               {"LowerArm", arm_left},
                                               {"Hand", arm_left},
                                               {"UpperLeg", leg_left},
                                               {"LowerLeg", leg_left},
                                               {"Foot", leg_left},
                                               {"Toes", leg_left}}};
constexpr std::array<std::string_view, 5> fingers{"Thumb", "Index", "Middle", "Ring", "Little"};
// VRM 1.0 calls the thumb's bones Metacarpal, Proximal, Distal; VRM 0.x as those of the other fingers.
constexpr std::array<std::string_view, 4> phalanges{"Metacarpal", "Proximal", "Intermediate", "Distal"};

HumanoidLimb on_side(HumanoidLimb limb, bool is_right) {
    if (limb == torso || limb == head || !is_right) return limb;
    return static_cast<HumanoidLimb>(static_cast<unsigned>(limb) + 1);
}

bool is_finger(std::string_view name) {
    for (const std::string_view finger : fingers)
        if (name.starts_with(finger))
            return (finger == "Thumb" || !name.ends_with("Metacarpal")) &&
                   std::find(phalanges.begin(), phalanges.end(), name.substr(finger.size())) != phalanges.end();
    return false;
}

std::optional<HumanoidLimb> limb_of(std::string_view name) {
    for (const HumanBone& bone : middle_bones)
        if (bone.name == name) return bone.limb;
    const bool is_left = name.starts_with("left"), is_right = name.starts_with("right");
    if (!is_left && !is_right) return std::nullopt;
    name.remove_prefix(is_left ? 4 : 5);
    for (const HumanBone& bone : side_bones)
        if (bone.name == name) return on_side(bone.limb, is_right);
    return is_finger(name) ? std::optional(on_side(hand_left, is_right)) : std::nullopt;
}

void take_bone(const Gltf& gltf, const GltfTaker& taker, Vrm& vrm, std::string_view name, std::uint32_t name_item,
               std::uint32_t bone) {
    const std::optional<HumanoidLimb> limb = limb_of(name);
    if (!limb) {
        taker.remark(name_item, "unknown humanoid bone " + in_quotes(name));
        return;
    }
    const GltfIndex node = taker.index(bone, "node", gltf.nodes.size(), "node");
    if (!node.is_given()) return;
    if (vrm.limb[node.to])
        taker.remark(node.item, "node " + std::to_string(node.to) + " is two humanoid bones, the second is " + in_quotes(name),
                     {node.to});
    else
        vrm.limb[node.to] = limb;
    vrm.has_humanoid = true;
}

}  // namespace

std::string_view name_of(HumanoidLimb limb) {
    static constexpr std::array<std::string_view, 8> names{"torso",     "head",       "left arm", "right arm",
                                                           "left hand", "right hand", "left leg", "right leg"};
    return names[static_cast<std::size_t>(limb)];
}

// VRM 1.0: an object, bones by name.
void take_humanoid(const Gltf& gltf, const GltfTaker& taker, Vrm& vrm) {
    const JsonDocument& json = taker.json;
    if (const std::uint32_t humanoid = taker.object(taker.object(gltf.extensions, "VRMC_vrm"), "humanoid"); humanoid != none)
        if (const std::uint32_t bones = taker.object(humanoid, "humanBones"); bones != none)
            for (const std::uint32_t i : json.inside(bones))
                if (taker.is_object(i, "a humanoid bone")) take_bone(gltf, taker, vrm, json[i].key, i, i);
}

// VRM 0.x: a list of bones that say their names.
void take_older_humanoid(const Gltf& gltf, const GltfTaker& taker, Vrm& vrm) {
    const JsonDocument& json = taker.json;
    if (const std::uint32_t humanoid = taker.object(taker.object(gltf.extensions, "VRM"), "humanoid"); humanoid != none)
        if (const std::uint32_t bones = taker.list(humanoid, "humanBones"); bones != none)
            for (const std::uint32_t i : json.inside(bones))
                if (taker.is_object(i, "a humanoid bone")) take_bone(gltf, taker, vrm, taker.text(i, "bone"), i, i);
}

}  // namespace ligament
