#include "gltf_scenes.hpp"

#include <algorithm>
#include <utility>

#include "gltf_names.hpp"

namespace ligament {

namespace {

/// Of a tree: a node in it with a skin, and the tree that has the first of the skin's joints.
struct Need {
    std::uint32_t root, joint_root, node;
};

// Sorted by tree; of each two trees only the first node, so that a scene costs what it lists and what it needs.
std::vector<Need> find_needs(const Gltf& gltf, const GltfTree& tree) {
    std::vector<Need> needs;
    for (std::uint32_t i = 0; i < gltf.nodes.size(); ++i) {
        const GltfNode& node = gltf.nodes[i];
        if (!node.skin.is_given() || !node.mesh.is_given() || gltf.skins[node.skin.to].joints.empty()) continue;
        needs.push_back({tree.root[i], tree.root[gltf.skins[node.skin.to].joints.front().to], i});
    }
    const auto trees = [](const Need& need) { return std::pair(need.root, need.joint_root); };
    std::stable_sort(needs.begin(), needs.end(), [&](const Need& a, const Need& b) { return trees(a) < trees(b); });
    needs.erase(std::unique(needs.begin(), needs.end(), [&](const Need& a, const Need& b) { return trees(a) == trees(b); }),
                needs.end());
    return needs;
}

// Each need is told once, of the first scene that does not meet it, and then forgotten.
void check_joints_are_there(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker) {
    std::vector<Need> needs = find_needs(gltf, tree);
    std::vector<std::uint32_t> seen_in(gltf.nodes.size(), none);
    for (std::uint32_t scene = 0; scene < gltf.scenes.size() && !needs.empty(); ++scene) {
        const std::vector<GltfIndex>& listed = gltf.scenes[scene].nodes;
        for (const GltfIndex& node : listed) seen_in[tree.root[node.to]] = scene;
        for (const GltfIndex& node : listed) {
            const std::uint32_t root = tree.root[node.to];
            auto need =
                std::lower_bound(needs.begin(), needs.end(), root, [](const Need& a, std::uint32_t b) { return a.root < b; });
            for (; need != needs.end() && need->root == root; ++need) {
                if (need->node == none || seen_in[need->joint_root] == scene) continue;
                taker.remark(gltf.nodes[need->node].item,
                             node_text(gltf, need->node) + " has a skin whose joints are not in scene " + std::to_string(scene) +
                                 ", as it is itself",
                             {need->node});
                need->node = none;
            }
        }
    }
}

void check_lists(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker) {
    std::vector<std::uint32_t> listed_in(gltf.nodes.size(), none);
    for (std::uint32_t scene = 0; scene < gltf.scenes.size(); ++scene)
        for (const GltfIndex& node : gltf.scenes[scene].nodes) {
            if (listed_in[node.to] == scene)
                taker.remark(node.item, node_text(gltf, node.to) + " stands twice in scene " + std::to_string(scene), {node.to});
            listed_in[node.to] = scene;
            if (tree.parent[node.to] != none)
                taker.remark(node.item,
                             node_text(gltf, node.to) + " is listed as a root of a scene, but hangs under " +
                                 node_text(gltf, tree.parent[node.to]),
                             {node.to});
        }
}

}  // namespace

void check_gltf_scenes(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker) {
    check_lists(gltf, tree, taker);
    check_joints_are_there(gltf, tree, taker);
}

}  // namespace ligament
