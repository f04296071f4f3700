#include "vrm.hpp"

#include <algorithm>

namespace ligament {

namespace {

// The last three say nothing about nodes: they hold a mesh's numbers in another way, which makes its weights unread.
constexpr std::array<std::string_view, 7> known_extensions{"VRM",
                                                           "VRMC_vrm",
                                                           "VRMC_node_constraint",
                                                           "VRMC_springBone",
                                                           "KHR_draco_mesh_compression",
                                                           "EXT_meshopt_compression",
                                                           "KHR_meshopt_compression"};

}  // namespace

bool is_known_extension(std::string_view name) {
    return std::find(known_extensions.begin(), known_extensions.end(), name) != known_extensions.end();
}

Vrm take_vrm(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker) {
    Vrm vrm;
    vrm.limb.resize(gltf.nodes.size());
    take_humanoid(gltf, taker, vrm);
    take_node_constraints(gltf, taker, vrm);
    take_spring_bones(gltf, tree, taker, vrm);
    const JsonDocument& json = taker.json;
    const std::uint32_t older = json.find(gltf.extensions, "VRM");
    if (json.find(gltf.extensions, "VRMC_vrm") == none && json.find(gltf.extensions, "VRMC_springBone") == none) {
        take_older_humanoid(gltf, taker, vrm);
        take_secondary_animation(gltf, tree, taker, vrm);
    } else if (older != none) {
        taker.remarks.push_back({Remark::Kind::extension_unread,
                                 "not looked at: \"VRM\", since the file has VRM 1.0 too",
                                 {},
                                 json[older].place,
                                 {}});
    }
    return vrm;
}

}  // namespace ligament
