#include "gltf_parts.hpp"

#include <algorithm>
#include <charconv>
#include <map>

#include "draft.hpp"
#include "gltf_rest.hpp"

namespace ligament {

namespace {

// A list of the file, and how many entries it has.
struct List {
    std::uint32_t item = none;
    std::size_t size = 0;
};

struct Lists {
    List nodes, skins, meshes, accessors, views, buffers, animations, scenes;
};

// The list at a key. The standard's schema wants at least one entry where there is one.
std::uint32_t filled_list(const GltfTaker& taker, std::uint32_t object, std::string_view key) {
    const std::uint32_t item = taker.list(object, key);
    if (item != none && taker.json.size_of(item) == 0) taker.remark(item, in_quotes(key) + " is an empty list");
    return item;
}

List list_at(const GltfTaker& taker, std::string_view key) {
    const std::uint32_t item = filled_list(taker, 0, key);
    return {item, taker.json.size_of(item)};
}

// Calls take(item) for the entries of a list that are objects, and takes a default for the others, so that indices hold.
template <class Part, class Take>
std::vector<Part> take_all(const GltfTaker& taker, std::uint32_t list, std::string_view noun, Take take) {
    std::vector<Part> parts;
    for (const std::uint32_t i : taker.json.inside(list)) {
        Part& part = parts.emplace_back();
        if (taker.is_object(i, noun)) take(i, part);
        if constexpr (requires { part.item; }) part.item = i;
    }
    return parts;
}

void take_node(const GltfTaker& taker, const Lists& lists, std::uint32_t item, GltfNode& node) {
    node.name = taker.lenient().text(item, "name");
    node.children = taker.indices(filled_list(taker, item, "children"), lists.nodes.size, "node");
    node.mesh = taker.index(item, "mesh", lists.meshes.size, "mesh");
    node.skin = taker.index(item, "skin", lists.skins.size, "skin");
    node.rest = take_gltf_rest(taker, item);
    node.extensions = taker.object(item, "extensions");
    node.carried = taker.json.find(item, {"extras", "rig"});
}

void take_skin(const GltfTaker& taker, const Lists& lists, std::uint32_t item, GltfSkin& skin) {
    skin.name = taker.lenient().text(item, "name");
    const std::uint32_t joints = taker.list(item, "joints");
    if (joints == none && taker.json.find(item, "joints") == none) taker.fault(item, "a skin needs \"joints\"");
    skin.joints = taker.indices(joints, lists.nodes.size, "node");
    skin.skeleton = taker.index(item, "skeleton", lists.nodes.size, "node");
}

constexpr std::string_view joints_word = "JOINTS_", weights_word = "WEIGHTS_";

// The n of "JOINTS_n", or none.
std::uint32_t set_number(std::string_view key, std::string_view word) {
    if (!key.starts_with(word)) return none;
    key.remove_prefix(word.size());
    if (key.size() > 1 && key.front() == '0') return none;
    std::uint32_t number = none;
    const auto [end, error] = std::from_chars(key.data(), key.data() + key.size(), number);
    return error == std::errc() && end == key.data() + key.size() ? number : none;
}

void take_influences(const GltfTaker& taker, const Lists& lists, std::uint32_t attributes, GltfPrimitive& primitive) {
    const JsonDocument& json = taker.json;
    std::map<std::uint32_t, GltfInfluences> sets;  // by n
    for (const std::uint32_t i : json.inside(attributes)) {
        const std::uint32_t joints = set_number(json[i].key, joints_word), weights = set_number(json[i].key, weights_word);
        if (joints != none) sets[joints].joints = taker.index(i, lists.accessors.size, "accessor");
        if (weights != none) sets[weights].weights = taker.index(i, lists.accessors.size, "accessor");
    }
    for (auto& [number, set] : sets) {
        set.set = number;
        primitive.influences.push_back(set);
    }
}

void take_primitive(const GltfTaker& taker, const Lists& lists, std::uint32_t item, GltfPrimitive& primitive) {
    if (const std::uint32_t attributes = taker.object(item, "attributes"); attributes != none)
        take_influences(taker, lists, attributes, primitive);
    primitive.is_compressed = taker.json.find(item, {"extensions", "KHR_draco_mesh_compression"}) != none;
}

void take_mesh(const GltfTaker& taker, const Lists& lists, std::uint32_t item, GltfMesh& mesh) {
    mesh.primitives =
        take_all<GltfPrimitive>(taker, taker.list(item, "primitives"), "a primitive",
                                [&](std::uint32_t i, GltfPrimitive& primitive) { take_primitive(taker, lists, i, primitive); });
}

GltfSparse take_sparse(const GltfTaker& taker, const Lists& lists, std::uint32_t item) {
    GltfSparse sparse;
    sparse.count = taker.whole(item, "count", 0);
    if (const std::uint32_t indices = taker.object(item, "indices"); indices != none) {
        sparse.indices_view = taker.index(indices, "bufferView", lists.views.size, "buffer view");
        sparse.indices_offset = taker.whole(indices, "byteOffset", 0);
        sparse.indices_component = static_cast<std::uint32_t>(taker.whole(indices, "componentType", 0));
    }
    if (const std::uint32_t values = taker.object(item, "values"); values != none) {
        sparse.values_view = taker.index(values, "bufferView", lists.views.size, "buffer view");
        sparse.values_offset = taker.whole(values, "byteOffset", 0);
    }
    return sparse;
}

void take_accessor(const GltfTaker& taker, const Lists& lists, std::uint32_t item, GltfAccessor& accessor) {
    accessor.view = taker.index(item, "bufferView", lists.views.size, "buffer view");
    accessor.offset = taker.whole(item, "byteOffset", 0);
    accessor.count = taker.whole(item, "count", 0);
    accessor.component = static_cast<std::uint32_t>(taker.whole(item, "componentType", 0));
    accessor.type = taker.text(item, "type");
    if (const std::uint32_t flag = taker.member(item, "normalized", Token::Type::flag, "true or false"); flag != none)
        accessor.normalized = taker.json[flag].flag;
    if (const std::uint32_t sparse = taker.object(item, "sparse"); sparse != none)
        accessor.sparse = take_sparse(taker, lists, sparse);
}

void take_view(const GltfTaker& taker, const Lists& lists, std::uint32_t item, GltfView& view) {
    view.buffer = taker.index(item, "buffer", lists.buffers.size, "buffer");
    view.offset = taker.whole(item, "byteOffset", 0);
    view.length = taker.whole(item, "byteLength", 0);
    view.stride = taker.whole(item, "byteStride", 0);
    view.is_compressed = taker.json.find(item, {"extensions", "EXT_meshopt_compression"}) != none ||
                         taker.json.find(item, {"extensions", "KHR_meshopt_compression"}) != none;
}

void take_buffer(const GltfTaker& taker, std::uint32_t item, GltfBuffer& buffer) {
    if (const std::uint32_t uri = taker.member(item, "uri", Token::Type::text, "a string"); uri != none)
        buffer.uri = taker.json[uri].text;
    buffer.length = taker.whole(item, "byteLength", 0);
}

std::vector<GltfTarget> take_targets(const GltfTaker& taker, const Lists& lists) {
    std::vector<GltfTarget> targets;
    const auto take_channel = [&](std::uint32_t item, GltfTarget& target) {
        const std::uint32_t to = taker.object(item, "target");
        if (to == none) return;
        target.node = taker.index(to, "node", lists.nodes.size, "node");
        target.path = taker.text(to, "path");
    };
    struct Animation {};
    take_all<Animation>(taker, lists.animations.item, "an animation", [&](std::uint32_t item, Animation&) {
        const std::vector<GltfTarget> more = take_all<GltfTarget>(taker, taker.list(item, "channels"), "a channel", take_channel);
        targets.insert(targets.end(), more.begin(), more.end());
    });
    return targets;
}

void take_scene(const GltfTaker& taker, const Lists& lists, std::uint32_t item, GltfScene& scene) {
    scene.name = taker.text(item, "name");
    scene.nodes = taker.indices(filled_list(taker, item, "nodes"), lists.nodes.size, "node");
}

std::vector<std::string_view> take_texts(const GltfTaker& taker, std::uint32_t list) {
    std::vector<std::string_view> texts;
    for (const std::uint32_t i : taker.json.inside(list))
        if (taker.json[i].type == Token::Type::text) texts.push_back(taker.json[i].text);
    return texts;
}

}  // namespace

Gltf take_gltf_parts(const GltfTaker& taker) {
    const GltfTaker lenient = taker.lenient();
    const Lists lists{list_at(taker, "nodes"),        list_at(taker, "skins"),         list_at(lenient, "meshes"),
                      list_at(lenient, "accessors"),  list_at(lenient, "bufferViews"), list_at(lenient, "buffers"),
                      list_at(lenient, "animations"), list_at(lenient, "scenes")};
    Gltf gltf;
    gltf.nodes = take_all<GltfNode>(taker, lists.nodes.item, "a node",
                                    [&](std::uint32_t i, GltfNode& node) { take_node(taker, lists, i, node); });
    gltf.skins = take_all<GltfSkin>(taker, lists.skins.item, "a skin",
                                    [&](std::uint32_t i, GltfSkin& skin) { take_skin(taker, lists, i, skin); });
    gltf.meshes = take_all<GltfMesh>(lenient, lists.meshes.item, "a mesh",
                                     [&](std::uint32_t i, GltfMesh& mesh) { take_mesh(lenient, lists, i, mesh); });
    gltf.accessors =
        take_all<GltfAccessor>(lenient, lists.accessors.item, "an accessor",
                               [&](std::uint32_t i, GltfAccessor& accessor) { take_accessor(lenient, lists, i, accessor); });
    gltf.views = take_all<GltfView>(lenient, lists.views.item, "a buffer view",
                                    [&](std::uint32_t i, GltfView& view) { take_view(lenient, lists, i, view); });
    gltf.buffers = take_all<GltfBuffer>(lenient, lists.buffers.item, "a buffer",
                                        [&](std::uint32_t i, GltfBuffer& buffer) { take_buffer(lenient, i, buffer); });
    gltf.targets = take_targets(taker, lists);
    gltf.scenes = take_all<GltfScene>(lenient, lists.scenes.item, "a scene",
                                      [&](std::uint32_t i, GltfScene& scene) { take_scene(lenient, lists, i, scene); });
    gltf.scene = lenient.index(0, "scene", gltf.scenes.size(), "scene");
    gltf.extensions_used = take_texts(lenient, lenient.list(0, "extensionsUsed"));
    gltf.extensions_required = take_texts(lenient, lenient.list(0, "extensionsRequired"));
    gltf.extensions = taker.object(0, "extensions");
    gltf.carried = taker.json.find(0, {"extras", "rig"});
    return gltf;
}

}  // namespace ligament
