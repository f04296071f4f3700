#include "ligament/sides.hpp"

#include <algorithm>
#include <string_view>

#include "name_table.hpp"
#include "side_mirror.hpp"

namespace ligament {

bool Sides::is_any() const {
    const auto any = [](const std::vector<Sided>& all) {
        return std::any_of(all.begin(), all.end(), [](const Sided& sided) { return static_cast<bool>(sided.side); });
    };
    return any(bones) || any(properties);
}

namespace {

template <class Element>
std::vector<Sided> find_partners(const SideTokens& tokens, const std::vector<Element>& elements) {
    std::vector<Sided> all(elements.size());
    if (!tokens.are_any()) return all;
    const auto name_of = [&](std::uint32_t id) -> std::string_view { return elements[id].name; };
    NameTable ids;
    for (std::uint32_t id = 0; id < elements.size(); ++id) ids.find_or_add(elements[id].name, id, name_of);
    for (std::uint32_t id = 0; id < elements.size(); ++id) {
        const SidedName name = tokens.look_at(elements[id].name);
        all[id].side = name.side;
        if (name.side) all[id].partner = ids.find(name.mirrored, name_of);
    }
    // Where replacing does not lead back ("a_l_1" and "a_r_1" with a token of another pair in between), nobody is a partner.
    for (std::uint32_t id = 0; id < elements.size(); ++id)
        if (all[id].partner != none && all[all[id].partner].partner != id) all[id].partner = none;
    return all;
}

/// The constraints and driven channels of a bone that its partner has not.
void add_unpaired_parts(const SideMirror& mirror, BoneId id, BoneId partner, std::vector<Unpaired>& unpaired) {
    const Bone &bone = mirror.rig.bones[id], &other = mirror.rig.bones[partner];
    // Matched from the same bone of the two each time, so that both tell the same pairs.
    std::vector<bool> is_paired(bone.constraints.size());
    const bool is_left = id < partner;
    for (const auto& [left, right] : is_left ? match_stacks(mirror, bone, other) : match_stacks(mirror, other, bone))
        is_paired[is_left ? left : right] = true;
    for (std::uint32_t i = 0; i < is_paired.size(); ++i)
        if (!is_paired[i]) unpaired.push_back({Unpaired::What::constraint, id, i});
    Channels there = 0;
    for (const ChannelValue& entry : other.channels) there = static_cast<Channels>(there | 1U << entry.channel);
    for (std::uint32_t i = 0; i < bone.channels.size(); ++i)
        if (bone.channels[i].value.is_driven() && (there & 1U << bone.channels[i].channel) == 0)
            unpaired.push_back({Unpaired::What::driver, id, i});
}

}  // namespace

Sides find_sides(const Rig& rig) {
    const SideTokens tokens(rig);
    return {find_partners(tokens, rig.bones), find_partners(tokens, rig.properties), find_partners(tokens, rig.objects)};
}

std::vector<Unpaired> find_unpaired(const Rig& rig, const Sides& sides) {
    const SideMirror mirror(rig, sides);
    std::vector<Unpaired> unpaired;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        if (!sides.bones[bone].side) continue;
        if (sides.bones[bone].partner == none)
            unpaired.push_back({Unpaired::What::bone, bone, 0});
        else
            add_unpaired_parts(mirror, bone, sides.bones[bone].partner, unpaired);
    }
    for (PropertyId property = 0; property < rig.properties.size(); ++property)
        if (sides.properties[property].side && sides.properties[property].partner == none)
            unpaired.push_back({Unpaired::What::property, property, 0});
    return unpaired;
}

}  // namespace ligament
