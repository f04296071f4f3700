#include "gltf_draft.hpp"

#include <algorithm>

#include "gltf_names.hpp"
#include "table_reader.hpp"

namespace ligament {

namespace {

constexpr Slot carried_bone_slot{.key = "rig", .wanted = "the rig data of a node (an object)", .object = &carried_bone_shape};
constexpr Slot carried_rig_slot{.key = "rig", .wanted = "the rig data of a glTF file (an object)", .object = &carried_rig_shape};

Token token_of(const JsonItem& item) {
    return {.type = item.type, .text = item.text, .lasts = true, .number = item.number, .flag = item.flag, .place = item.place};
}

// Leads a value of the JSON through the tables.
void read_carried(const JsonDocument& json, std::uint32_t item, const Slot& slot, Draft& draft) {
    TableReader reader(draft, slot);
    std::vector<std::uint32_t> ends;  // of the lists and objects that are open
    for (std::uint32_t i = item; i < json[item].end || !ends.empty();) {
        if (!ends.empty() && ends.back() == i) {
            reader.close();
            ends.pop_back();
            continue;
        }
        const JsonItem& value = json[i];
        const bool is_in_object = i != item && json[value.parent].type == Token::Type::object;
        if (is_in_object) reader.key({.type = Token::Type::text, .text = value.key, .lasts = true, .place = value.key_place});
        if (value.type == Token::Type::list || value.type == Token::Type::object) {
            reader.open(token_of(value));
            ends.push_back(value.end);
        } else if (value.type == Token::Type::null && value.flag) {
            reader.spoiled(value.place);
        } else {
            reader.scalar(token_of(value));
        }
        ++i;
    }
}

NameId name_id(const GltfFindings& found, std::uint32_t node, Draft& draft) {
    return draft.names.intern(found.names[node], true);
}

void add_source(const GltfFindings& found, GltfIndex node, Constraint& constraint, Draft& draft) {
    Source& source = constraint.sources.emplace_back();
    source.bone = name_id(found, node.to, draft);
    source.place = found.json[node.item].place;
}

void add_constraint(const GltfFindings& found, const VrmConstraint& from, Draft& draft) {
    Constraint& constraint = draft.bone().constraints.emplace_back();
    constraint.name = std::string(name_of(from.kind)) + "1";
    constraint.kind = from.kind;
    constraint.space = from.kind == ConstraintKind::aim ? Space::final : Space::local;
    constraint.axis = from.axis;
    constraint.weight.number = from.weight;
    constraint.place = found.json[from.item].place;
    add_source(found, from.source, constraint, draft);
}

// One without center, colliders and a joint before it swings with its parent.
void add_spring(const GltfFindings& found, const VrmSpring& from, Draft& draft) {
    std::vector<GltfIndex> reads = from.reads;
    if (reads.empty() && found.tree.parent[from.node] != none) reads.push_back({found.tree.parent[from.node], from.item});
    if (reads.empty()) return;
    std::vector<Constraint>& constraints = draft.bone().constraints;
    Constraint spring;
    spring.name = "spring";
    const auto has_name = [&](const Constraint& constraint) { return constraint.name == spring.name; };
    while (std::any_of(constraints.begin(), constraints.end(), has_name)) spring.name += "#";
    spring.kind = ConstraintKind::custom;
    spring.reads = all_channels;
    spring.writes = rotation_channels;
    if (!from.label.empty()) spring.label = from.label;
    spring.place = found.json[from.item].place;
    for (const GltfIndex& read : reads) add_source(found, read, spring, draft);
    constraints.push_back(std::move(spring));
}

// A name as the rig description takes it.
void set_name(Draft& draft, std::string& name, const std::string& given, Place place) {
    take_name(draft, {.type = Token::Type::text, .text = given, .place = place}, name);
}

void add_bone(const GltfFindings& found, std::uint32_t node, Draft& draft) {
    const GltfNode& from = found.gltf.nodes[node];
    Bone& bone = draft.rig.bones.emplace_back();
    bone.place = found.json[from.item].place;
    set_name(draft, bone.name, found.names[node], bone.place);
    draft.names.elements(name_id(found, node, draft)).bone = node;
    bone.rest = from.rest;
    draft.parent_places.emplace_back();
    if (found.tree.parent[node] == none) return;
    bone.parent = name_id(found, found.tree.parent[node], draft);
    draft.parent_places.back() = found.json[found.tree.link[node]].place;
}

bool carries_roles(const GltfFindings& found) {
    return std::any_of(found.gltf.nodes.begin(), found.gltf.nodes.end(),
                       [&](const GltfNode& node) { return found.json.find(node.carried, "roles") != none; });
}

// What the node carries goes before what was made out from the rest of the file.
void add_roles(const GltfFindings& found, std::uint32_t node, bool roles_are_stated, Draft& draft) {
    const std::uint32_t carried = found.gltf.nodes[node].carried;
    Bone& bone = draft.bone();
    if (found.json.find(carried, "group") == none) bone.group = found.groups[node];
    if (found.json.find(carried, "roles") != none) return;
    bone.role_is_stated = roles_are_stated;
    bone.control = found.roles.control[node];
    bone.deform = found.roles.deform[node];
}

void add_bones(const GltfFindings& found, Draft& draft) {
    const bool roles_are_stated = carries_roles(found);
    std::size_t constraint = 0;
    std::vector<std::uint32_t> spring_of(found.gltf.nodes.size(), none);
    for (std::uint32_t i = 0; i < found.vrm.springs.size(); ++i) spring_of[found.vrm.springs[i].node] = i;
    for (std::uint32_t node = 0; node < found.gltf.nodes.size(); ++node) {
        add_bone(found, node, draft);
        const std::vector<VrmConstraint>& constraints = found.vrm.constraints;
        for (; constraint < constraints.size() && constraints[constraint].node == node; ++constraint)
            add_constraint(found, constraints[constraint], draft);
        if (const std::uint32_t carried = found.gltf.nodes[node].carried; carried != none)
            read_carried(found.json, carried, carried_bone_slot, draft);
        if (spring_of[node] != none) add_spring(found, found.vrm.springs[spring_of[node]], draft);
        add_roles(found, node, roles_are_stated, draft);
    }
}

// A skin that has the name of an object that the file carries is that object.
void add_skins(const GltfFindings& found, Draft& draft) {
    std::vector<std::string_view> given;
    for (const GltfSkin& skin : found.gltf.skins) given.push_back(skin.name);
    const std::vector<std::string> names = unique_names(given, "skin");
    std::vector<std::uint32_t> last_skin(found.gltf.nodes.size(), none);  // that lists the node
    for (std::uint32_t i = 0; i < names.size(); ++i) {
        NamedElements& elements = draft.names.elements(draft.names.intern(names[i], false));
        if (elements.object != none) continue;
        elements.object = static_cast<ObjectId>(draft.rig.objects.size());
        Object& object = draft.rig.objects.emplace_back();
        object.place = found.json[found.gltf.skins[i].item].place;
        set_name(draft, object.name, names[i], object.place);
        for (const GltfIndex& joint : found.gltf.skins[i].joints)
            if (std::exchange(last_skin[joint.to], i) != i) object.follows.push_back(name_id(found, joint.to, draft));
    }
}

// Where the file does not say what its roles are, root controls are those above all deform bones that neither deform themselves
// nor are bones of a humanoid: hips that move everything are no root control, or each humanoid would be found fault with.
void add_roots(const GltfFindings& found, Draft& draft) {
    if (carries_roles(found)) return;
    std::uint32_t first = none, last = 0;  // places of deform bones in the order of the tree
    for (std::uint32_t node = 0; node < found.gltf.nodes.size(); ++node) {
        if (!found.roles.deform[node]) continue;
        first = std::min(first, found.tree.place[node]);
        last = std::max(last, found.tree.place[node]);
    }
    draft.rig.roots.emplace();
    if (first == none) return;
    for (std::uint32_t node = 0; node < found.gltf.nodes.size(); ++node) {
        const bool is_above_all = found.tree.place[node] <= first && last < found.tree.behind[node];
        if (is_above_all && found.roles.control[node] && !found.roles.deform[node] && !found.vrm.limb[node])
            draft.rig.roots->push_back(name_id(found, node, draft));
    }
}

}  // namespace

void fill_draft(const GltfFindings& found, Draft& draft) {
    if (found.gltf.carried != none) read_carried(found.json, found.gltf.carried, carried_rig_slot, draft);
    add_bones(found, draft);
    add_skins(found, draft);
    if (!draft.rig.roots) add_roots(found, draft);
}

}  // namespace ligament
