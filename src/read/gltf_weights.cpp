#include "gltf_weights.hpp"

#include <algorithm>
#include <set>

#include "draft.hpp"
#include "gltf_elements.hpp"

namespace ligament {

namespace {

// One skin while meshes that use it are looked at.
struct Reading {
    const GltfSource& source;
    GltfBuffers& buffers;
    Remarks& remarks;
    std::uint32_t skin;
    SkinWeights& weights;
    std::set<std::string> said = {};

    std::string skin_text() const {
        const std::string_view name = source.gltf.skins[skin].name;
        return "skin " + (name.empty() ? std::to_string(skin) : in_quotes(name));
    }

    void remark(Remark::Kind kind, const std::string& message, std::uint32_t item) {
        if (!said.insert(message).second) return;
        remarks.push_back({kind, message, {}, source.json[item].place, source.json.pointer_to(item)});
    }

    void broken(const std::string& what, std::uint32_t item) {
        remark(Remark::Kind::standard_broken, skin_text() + ": " + what, item);
    }

    /// Its joints all count as weighted from now on.
    void give_up(const std::string& reason) {
        weights.is_read = false;
        remark(Remark::Kind::weights_unread,
               skin_text() + ": weights cannot be read, so that all its joints (" +
                   std::to_string(source.gltf.skins[skin].joints.size()) + ") count as deform bones: " + reason,
               source.gltf.skins[skin].item);
    }
};

void take_vertex(Reading& reading, const GltfInfluences& set, const std::array<double, 4>& joints,
                 const std::array<double, 4>& weights) {
    std::vector<bool>& is_weighted = reading.weights.is_weighted;
    for (std::size_t i = 0; i < 4; ++i) {
        if (weights[i] > 0 && joints[i] < static_cast<double>(is_weighted.size()))
            is_weighted[static_cast<std::size_t>(joints[i])] = true;
        else if (weights[i] > 0)
            reading.broken("a vertex is weighted to joint " + number_text(joints[i]) + ", the skin has " +
                               std::to_string(is_weighted.size()),
                           set.joints.item);
        else if (!(weights[i] >= 0))
            reading.broken("a weight is no number from 0 on", set.weights.item);
    }
}

void take_influences(Reading& reading, const GltfInfluences& set) {
    if (!set.joints.is_given() || !set.weights.is_given()) {
        const std::uint32_t item = set.joints.item != none ? set.joints.item : set.weights.item;
        reading.broken("joints and weights come in pairs, set " + std::to_string(set.set) + " has one of them", item);
        return reading.give_up("set " + std::to_string(set.set) + " of joints and weights is not whole");
    }
    std::string reason;
    using enum GltfComponent;
    const auto joints = GltfElements::open(reading.source, reading.buffers, set.joints.to, {u8, u16}, reason);
    const auto weights =
        joints ? GltfElements::open(reading.source, reading.buffers, set.weights.to, {f32, u8, u16}, reason) : std::nullopt;
    if (!weights) return reading.give_up(reason);
    if (joints->count() != weights->count()) {
        reading.broken("as many joints as weights are wanted, found " + std::to_string(joints->count()) + " and " +
                           std::to_string(weights->count()),
                       set.weights.item);
        return reading.give_up("there are not as many joints as weights");
    }
    if (weights->is_on_zeros())
        for (std::uint64_t i = 0; i < weights->apart(); ++i)
            take_vertex(reading, set, (*joints)[weights->apart_index(i)], (*weights)[weights->apart_index(i)]);
    else
        for (std::uint64_t i = 0; i < weights->count(); ++i) take_vertex(reading, set, (*joints)[i], (*weights)[i]);
}

void take_mesh(Reading& reading, const GltfMesh& mesh) {
    for (const GltfPrimitive& primitive : mesh.primitives) {
        if (primitive.is_compressed)
            reading.give_up("a mesh that uses it is compressed");
        else
            for (const GltfInfluences& set : primitive.influences) take_influences(reading, set);
    }
}

}  // namespace

std::vector<SkinWeights> find_weighted_joints(const GltfSource& source, Remarks& remarks) {
    const Gltf& gltf = source.gltf;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> uses;  // skin, mesh
    for (const GltfNode& node : gltf.nodes)
        if (node.skin.is_given() && node.mesh.is_given()) uses.emplace_back(node.skin.to, node.mesh.to);
    std::sort(uses.begin(), uses.end());
    uses.erase(std::unique(uses.begin(), uses.end()), uses.end());
    GltfBuffers buffers(source);
    std::vector<SkinWeights> skins(gltf.skins.size());
    auto use = uses.begin();
    for (std::uint32_t skin = 0; skin < skins.size(); ++skin) {
        skins[skin].is_weighted.assign(gltf.skins[skin].joints.size(), false);
        Reading reading{source, buffers, remarks, skin, skins[skin]};
        for (; use != uses.end() && use->first == skin; ++use) take_mesh(reading, gltf.meshes[use->second]);
        if (!skins[skin].is_read) skins[skin].is_weighted.assign(gltf.skins[skin].joints.size(), true);
    }
    return skins;
}

}  // namespace ligament
