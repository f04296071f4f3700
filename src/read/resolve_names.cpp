// What do the names in a rig description mean? Puts ids in their place.
#include <algorithm>

#include "draft.hpp"

namespace ligament {

namespace {

std::string_view noun_of(Reference::Kind kind) {
    switch (kind) {
        case Reference::Kind::property:
            return "property";
        case Reference::Kind::object:
            return "object";
        default:
            return "bone";
    }
}

template <class Elements>
std::vector<std::string_view> names_of(const Elements& elements) {
    std::vector<std::string_view> names;
    names.reserve(elements.size());
    for (const auto& element : elements) names.emplace_back(element.name);
    return names;
}

// The hints of unknown names, each looked for once.
struct Hints {
    std::array<std::vector<std::string_view>, 4> known;            // by Reference::Kind, filled when first needed
    std::array<std::vector<std::optional<std::string>>, 4> found;  // by NameId
};

const std::string& hint_for(Draft& draft, Hints& hints, const Reference& reference) {
    const auto kind = static_cast<std::size_t>(reference.kind);
    if (hints.found[kind].empty()) {
        hints.found[kind].resize(draft.names.size());
        hints.known[kind] = reference.kind == Reference::Kind::property ? names_of(draft.rig.properties)
                            : reference.kind == Reference::Kind::object ? names_of(draft.rig.objects)
                                                                        : names_of(draft.rig.bones);
    }
    std::optional<std::string>& hint = hints.found[kind][reference.name];
    if (!hint) hint = nearest_text(draft, draft.names.text(reference.name), hints.known[kind]);
    return *hint;
}

std::uint32_t id_of(const NamedElements& elements, Reference::Kind kind) {
    switch (kind) {
        case Reference::Kind::property:
            return elements.property;
        case Reference::Kind::object:
            return elements.object;
        default:
            return elements.bone;
    }
}

// What else carries the name, for those who forgot to say that they mean an object.
std::string_view other_kind_text(const NamedElements& elements) {
    if (elements.object != none) return ", an object has that name";
    if (elements.property != none) return ", a property has that name";
    if (elements.bone != none) return ", a bone has that name";
    return {};
}

void check_references(Draft& draft) {
    Hints hints;
    for (const Reference& reference : draft.references) {
        const std::string_view name = draft.names.text(reference.name);
        const NamedElements& elements = draft.names.elements(reference.name);
        const std::uint32_t id = id_of(elements, reference.kind);
        const std::string_view other = other_kind_text(elements);
        if (id == none)
            draft.fault(reference.place, "unknown " + std::string(noun_of(reference.kind)) + " " + in_quotes(name) +
                                             (other.empty() ? hint_for(draft, hints, reference) : std::string(other)));
        else if (reference.kind == Reference::Kind::curved_bone && !draft.rig.bones[id].curve)
            draft.fault(reference.place, "bone " + in_quotes(name) + " is read \"curved\", but has no \"curve\"");
    }
}

// One fault a loop, at the parent of its first bone in the file. Every bone is walked once.
void check_parent_loops(Draft& draft, const std::vector<BoneId>& parents) {
    std::vector<BoneId> walk_of(parents.size(), none);  // the bone that the walk over this bone began at
    std::vector<std::vector<BoneId>> loops;
    for (BoneId start = 0; start < parents.size(); ++start) {
        BoneId bone = start;
        for (; bone != none && walk_of[bone] == none; bone = parents[bone]) walk_of[bone] = start;
        if (bone == none || walk_of[bone] != start) continue;
        std::vector<BoneId> loop{bone};
        for (BoneId next = parents[bone]; next != bone; next = parents[next]) loop.push_back(next);
        std::rotate(loop.begin(), std::min_element(loop.begin(), loop.end()), loop.end());
        loops.push_back(std::move(loop));
    }
    for (const std::vector<BoneId>& loop : loops) {
        std::string path;
        for (const BoneId bone : loop) path += draft.rig.bones[bone].name + " -> ";
        draft.fault(draft.parent_places[loop.front()], "parent loop " + path + draft.rig.bones[loop.front()].name);
    }
}

void put_ids(const Names& names, Constraint& constraint) {
    for (Source& source : constraint.sources) {
        if (source.bone != none) source.bone = names.elements(source.bone).bone;
        if (source.object != none) source.object = names.elements(source.object).object;
    }
}

void put_ids(const Names& names, Bone& bone) {
    if (bone.curve && bone.curve->start != none) bone.curve->start = names.elements(bone.curve->start).bone;
    if (bone.curve && bone.curve->end != none) bone.curve->end = names.elements(bone.curve->end).bone;
    for (Constraint& constraint : bone.constraints) put_ids(names, constraint);
}

void put_ids(const Names& names, Driver& driver) {
    for (Input& input : driver.inputs) {
        if (input.property != none) input.property = names.elements(input.property).property;
        if (input.bone != none) input.bone = names.elements(input.bone).bone;
        if (input.other != none) input.other = names.elements(input.other).bone;
    }
}

}  // namespace

ReadResult finish(Draft& draft) {
    ReadResult result;
    if (draft.faults.empty())
        result.rig = std::move(draft.rig);
    else
        result.faults = draft.faults.take();
    return result;
}

void resolve_names(Draft& draft) {
    const Names& names = draft.names;
    check_references(draft);
    std::vector<BoneId> parents;
    parents.reserve(draft.rig.bones.size());
    for (const Bone& bone : draft.rig.bones) parents.push_back(bone.parent == none ? none : names.elements(bone.parent).bone);
    check_parent_loops(draft, parents);
    if (!draft.faults.empty()) return;
    for (BoneId i = 0; i < parents.size(); ++i) draft.rig.bones[i].parent = parents[i];
    for (Bone& bone : draft.rig.bones) put_ids(names, bone);
    for (Driver& driver : draft.rig.drivers) put_ids(names, driver);
    for (Property& property : draft.rig.properties)
        if (property.on != none) property.on = names.elements(property.on).bone;
    for (Object& object : draft.rig.objects)
        for (BoneId& bone : object.follows) bone = names.elements(bone).bone;
    if (draft.rig.roots)
        for (BoneId& bone : *draft.rig.roots) bone = names.elements(bone).bone;
}

}  // namespace ligament
