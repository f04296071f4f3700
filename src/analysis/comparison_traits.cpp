#include "comparison_traits.hpp"

#include <algorithm>
#include <bit>
#include <unordered_map>

namespace ligament {

std::uint64_t mixed(std::uint64_t first, std::uint64_t second) {
    std::uint64_t x = first * 0x9e3779b97f4a7c15U + second + 0x7f4a7c15U;
    x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
    x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
    return x ^ (x >> 31U);
}

std::uint64_t mixed(std::string_view text) {
    std::uint64_t hash = text.size();
    for (const char c : text) hash = mixed(hash, static_cast<unsigned char>(c));
    return hash;
}

std::uint64_t mixed(double number) { return mixed(std::bit_cast<std::uint64_t>(number == 0 ? 0.0 : number), 1); }

namespace {

/// What a relation is of; the numbers only have to differ.
enum Kind : std::uint64_t {
    parent = 1,
    child,
    top,
    roles,
    group,
    member,
    translation,
    turn,
    tip,
    from_parent,
    below,
    handle,
    constraint,
    source,
    input,
    formula,
    on,
    numbers,
    stops,
    follows
};

constexpr float known = 2, plain = 1, faint = 0.5F;

struct Collector {
    const Rig& rig;
    Surroundings all;

    void say(std::uint32_t node, std::uint64_t relation, float weight) { all.traits[node].push_back({relation, none, weight}); }

    /// `node` needs `other`: a trait of both, told apart by direction.
    void tie(std::uint32_t node, std::uint32_t other, std::uint64_t relation) {
        all.traits[node].push_back({mixed(relation, 1), other, known});
        all.traits[other].push_back({mixed(relation, 2), node, known});
    }

    void add_value(std::uint32_t node, std::uint64_t place, const Value& value) {
        if (!value.is_driven()) return;
        const Driver& driver = rig.drivers[value.driver];
        std::uint64_t text = mixed(mixed(place, formula), mixed(driver.expression));
        for (const auto& [x, y] : driver.curve) text = mixed(mixed(text, mixed(x)), mixed(y));
        say(node, text, plain);
        for (const Input& in : driver.inputs) {
            std::uint64_t use = mixed(mixed(place, input), static_cast<std::uint64_t>(in.kind));
            if (in.kind == Input::Kind::property) {
                tie(node, all.property(in.property), use);
                continue;
            }
            use = mixed(mixed(use, in.channel), static_cast<std::uint64_t>(in.space));
            tie(node, in.bone, use);
            if (in.other != none) tie(node, in.other, mixed(use, 3));
        }
    }

    void add_rest(BoneId id, const Bone& bone) {
        if (bone.tip)
            say(id, mixed(mixed(mixed(tip, mixed((*bone.tip)[0])), mixed((*bone.tip)[1])), mixed((*bone.tip)[2])), plain);
        if (!bone.rest) return;
        std::uint64_t place = translation, turned = turn;
        bool is_moved = false;
        for (const double number : bone.rest->translation) place = mixed(place, mixed(number)), is_moved |= number != 0;
        for (const double number : bone.rest->rotation) turned = mixed(turned, mixed(number));
        for (const double number : bone.rest->scale) turned = mixed(turned, mixed(number));
        say(id, place, is_moved ? known : faint);
        say(id, turned, plain);
    }

    void add_constraint(BoneId id, const Constraint& of) {
        const std::uint64_t kind = mixed(constraint, static_cast<std::uint64_t>(of.kind));
        say(id, kind, plain);
        add_value(id, mixed(kind, 1), of.weight);
        for (const Source& read : of.sources) {
            const std::uint64_t use = mixed(mixed(kind, source), static_cast<std::uint64_t>(read.use));
            tie(id, read.object != none ? all.object(read.object) : read.bone, mixed(mixed(use, mixed(read.at)), read.curved));
            add_value(id, mixed(kind, 2), read.weight);
        }
    }

    void add_bone(BoneId id) {
        const Bone& bone = rig.bones[id];
        if (bone.parent == none)
            say(id, top, plain);
        else
            tie(id, bone.parent, parent);
        say(id, mixed(roles, (bone.control ? 1U : 0U) + (bone.deform ? 2U : 0U)), plain);
        if (bone.from_parent != all_parts) say(id, mixed(from_parent, bone.from_parent), plain);
        add_rest(id, bone);
        if (bone.curve) {
            if (bone.curve->start != none) tie(id, bone.curve->start, handle);
            if (bone.curve->end != none) tie(id, bone.curve->end, mixed(handle, 3));
        }
        for (const ChannelValue& channel : bone.channels) add_value(id, mixed(channel.channel, 4), channel.value);
        for (const Constraint& of : bone.constraints) add_constraint(id, of);
    }

    void add_property(PropertyId id) {
        const Property& property = rig.properties[id];
        const std::uint32_t node = all.property(id);
        if (property.on != none) tie(node, property.on, on);
        std::uint64_t range = mixed(numbers, mixed(property.initial));
        for (const std::optional<double>& end : {property.min, property.max}) range = mixed(range, end ? mixed(*end) : 7);
        say(node, range, plain);
        std::uint64_t named = stops;
        for (const auto& [name, number] : property.stops) named = mixed(mixed(named, mixed(name)), mixed(number));
        if (!property.stops.empty()) say(node, named, plain);
        if (property.value) add_value(node, 5, *property.value);
    }

    /// Groups are elements too, so that a limb is known again when its group is renamed with it.
    void add_groups() {
        std::unordered_map<std::string_view, std::uint32_t> places;
        for (const Bone& bone : rig.bones)
            if (!bone.group.empty() && places.try_emplace(bone.group, all.size()).second) {
                ++all.groups;
                all.traits.emplace_back();
                all.names.emplace_back(bone.group);
            }
        for (BoneId id = 0; id < all.bones; ++id) {
            if (rig.bones[id].group.empty()) continue;
            const std::uint32_t node = places.at(rig.bones[id].group);
            all.traits[id].push_back({group, node, plain});
            all.traits[node].push_back({member, id, known});
        }
    }

    /// The shape of what hangs below, told without names: the number, roles, constraints and shapes of children, whatever their
    /// order.
    void add_shapes() {
        std::vector<std::uint32_t> children(all.bones);
        for (const Bone& bone : rig.bones)
            if (bone.parent != none) ++children[bone.parent];
        std::vector<std::uint64_t> shape(all.bones, 1);
        std::vector<std::uint32_t> missing = children;
        std::vector<BoneId> ready;
        for (BoneId id = 0; id < all.bones; ++id)
            if (children[id] == 0) ready.push_back(id);
        while (!ready.empty()) {
            const BoneId id = ready.back();
            ready.pop_back();
            const Bone& bone = rig.bones[id];
            if (children[id] > 0)
                all.traits[id].push_back({mixed(below, shape[id]), none, known, true});  // any change below changes it
            if (bone.parent == none) continue;
            std::uint64_t own = mixed(shape[id], (bone.control ? 1U : 0U) + (bone.deform ? 2U : 0U));
            for (const Constraint& of : bone.constraints) own = mixed(own, static_cast<std::uint64_t>(of.kind));
            shape[bone.parent] += own;
            if (--missing[bone.parent] == 0) ready.push_back(bone.parent);
        }
    }
};

}  // namespace

Surroundings find_surroundings(const Rig& rig) {
    Collector collector{rig, {}};
    Surroundings& all = collector.all;
    all.bones = static_cast<std::uint32_t>(rig.bones.size());
    all.properties = static_cast<std::uint32_t>(rig.properties.size());
    all.objects = static_cast<std::uint32_t>(rig.objects.size());
    all.traits.resize(all.size());
    for (const Bone& bone : rig.bones) all.names.emplace_back(bone.name);
    for (const Property& property : rig.properties) all.names.emplace_back(property.name);
    for (const Object& object : rig.objects) all.names.emplace_back(object.name);
    for (BoneId id = 0; id < all.bones; ++id) collector.add_bone(id);
    for (PropertyId id = 0; id < all.properties; ++id) collector.add_property(id);
    for (ObjectId id = 0; id < all.objects; ++id)
        for (const BoneId bone : rig.objects[id].follows) collector.tie(all.object(id), bone, follows);
    collector.add_shapes();
    collector.add_groups();
    return std::move(collector.all);
}

}  // namespace ligament
