#include "gltf_tree.hpp"

#include <algorithm>

#include "draft.hpp"
#include "gltf_names.hpp"

namespace ligament {

namespace {

void link_children(const Gltf& gltf, const GltfTaker& taker, GltfTree& tree) {
    for (std::uint32_t i = 0; i < gltf.nodes.size(); ++i)
        for (const GltfIndex& child : gltf.nodes[i].children) {
            std::uint32_t& parent = tree.parent[child.to];
            if (parent == i)
                taker.fault(child.item, node_text(gltf, child.to) + " stands twice among the children of " + node_text(gltf, i));
            else if (parent != none)
                taker.fault(child.item, node_text(gltf, child.to) + " has two parents, " + node_text(gltf, parent) + " and " +
                                            node_text(gltf, i));
            if (parent != none) continue;
            parent = i;
            tree.link[child.to] = child.item;
        }
}

// Loops of first parents: one fault each, at the link to its first node, which is cut.
void cut_loops(const Gltf& gltf, const GltfTaker& taker, GltfTree& tree) {
    std::vector<std::uint32_t> walk(tree.parent.size(), none);  // the node that the walk over this node began at
    for (std::uint32_t start = 0; start < tree.parent.size(); ++start) {
        std::uint32_t node = start;
        for (; node != none && walk[node] == none; node = tree.parent[node]) walk[node] = start;
        if (node == none || walk[node] != start) continue;
        std::vector<std::uint32_t> loop{node};
        for (std::uint32_t next = tree.parent[node]; next != node; next = tree.parent[next]) loop.push_back(next);
        std::rotate(loop.begin(), std::min_element(loop.begin(), loop.end()), loop.end());
        std::string path;
        constexpr std::size_t shown = 12;
        for (std::size_t i = 0; i < std::min(loop.size(), shown); ++i) path += node_text(gltf, loop[i]) + " -> ";
        if (loop.size() > shown) path += "... (" + std::to_string(loop.size()) + " nodes) -> ";
        taker.fault(tree.link[loop.front()], "parent loop " + path + node_text(gltf, loop.front()));
        tree.parent[loop.front()] = none;
    }
}

void find_order(GltfTree& tree) {
    const auto size = static_cast<std::uint32_t>(tree.parent.size());
    std::vector<std::uint32_t> first(size, none), next(size, none);
    for (std::uint32_t node = size; node-- > 0;)
        if (tree.parent[node] != none) next[node] = std::exchange(first[tree.parent[node]], node);
    tree.root.assign(size, none);
    tree.order.reserve(size);
    for (std::uint32_t start = 0; start < size; ++start) {
        if (tree.parent[start] != none) continue;
        for (std::uint32_t node = start; node != none;) {
            tree.root[node] = start;
            tree.order.push_back(node);
            if (first[node] != none) {
                node = first[node];
                continue;
            }
            while (node != start && next[node] == none) node = tree.parent[node];
            node = node == start ? none : next[node];
        }
    }
    tree.place.resize(size);
    tree.behind.assign(size, 0);
    for (std::uint32_t at = size; at-- > 0;) {
        const std::uint32_t node = tree.order[at], parent = tree.parent[node];
        tree.place[node] = at;
        tree.behind[node] = std::max(tree.behind[node], at + 1);
        if (parent != none) tree.behind[parent] = std::max(tree.behind[parent], tree.behind[node]);
    }
}

void find_double_joints(const GltfSkin& skin, const GltfTaker& taker) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> order;
    for (std::uint32_t i = 0; i < skin.joints.size(); ++i) order.emplace_back(skin.joints[i].to, i);
    std::sort(order.begin(), order.end());
    for (std::size_t i = 1; i < order.size(); ++i)
        if (order[i].first == order[i - 1].first)
            taker.remark(skin.joints[order[i].second].item,
                         "node " + std::to_string(order[i].first) + " stands twice among the joints of a skin");
}

// Looks at joints alone and never up the tree, so that many skins of few joints cost little however deep they hang.
void check_skin(const Gltf& gltf, const GltfSkin& skin, const GltfTree& tree, const GltfTaker& taker) {
    if (skin.joints.empty()) {
        if (taker.json.find(skin.item, "joints") != none) taker.remark(skin.item, "a skin without joints moves nothing");
        return;
    }
    const std::uint32_t root = tree.root[skin.joints.front().to];
    const auto other =
        std::find_if(skin.joints.begin(), skin.joints.end(), [&](const GltfIndex& joint) { return tree.root[joint.to] != root; });
    const auto stranger = std::find_if(skin.joints.begin(), skin.joints.end(), [&](const GltfIndex& joint) {
        return skin.skeleton.is_given() && !is_above(tree, skin.skeleton.to, joint.to);
    });
    if (other != skin.joints.end())
        taker.remark(taker.json.find(skin.item, "joints"),
                     "the joints of a skin have no common root: " + node_text(gltf, skin.joints.front().to) + " hangs under " +
                         node_text(gltf, root) + ", " + node_text(gltf, other->to) + " under " +
                         node_text(gltf, tree.root[other->to]),
                     {skin.joints.front().to, other->to});
    else if (stranger != skin.joints.end())
        taker.remark(skin.skeleton.item,
                     "\"skeleton\" of a skin is a common root of its joints or above it, found " +
                         node_text(gltf, skin.skeleton.to) + ", under which " + node_text(gltf, stranger->to) + " does not hang",
                     {skin.skeleton.to});
}

void check_skinned_nodes(const Gltf& gltf, const GltfTaker& taker) {
    std::vector<bool> is_skinned;  // of each mesh: all its primitives say which joints move them
    for (const GltfMesh& mesh : gltf.meshes)
        is_skinned.push_back(std::none_of(mesh.primitives.begin(), mesh.primitives.end(),
                                          [](const GltfPrimitive& primitive) { return primitive.influences.empty(); }));
    for (std::uint32_t i = 0; i < gltf.nodes.size(); ++i) {
        const GltfNode& node = gltf.nodes[i];
        if (!node.skin.is_given()) continue;
        if (taker.json.find(node.item, "mesh") == none)
            taker.remark(node.skin.item, "a node with a skin needs a mesh", {i});
        else if (node.mesh.is_given() && !is_skinned[node.mesh.to])
            taker.remark(node.item, node_text(gltf, i) + " has a skin, but its mesh has a primitive without joints", {i});
    }
}

}  // namespace

GltfTree build_gltf_tree(const Gltf& gltf, const GltfTaker& taker) {
    GltfTree tree;
    tree.parent.assign(gltf.nodes.size(), none);
    tree.link.assign(gltf.nodes.size(), none);
    link_children(gltf, taker, tree);
    cut_loops(gltf, taker, tree);
    find_order(tree);
    return tree;
}

void check_gltf_skins(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker) {
    for (const GltfSkin& skin : gltf.skins) {
        find_double_joints(skin, taker);
        check_skin(gltf, skin, tree, taker);
    }
    check_skinned_nodes(gltf, taker);
}

}  // namespace ligament
