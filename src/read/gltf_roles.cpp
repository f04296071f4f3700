#include "gltf_roles.hpp"

#include <algorithm>

#include "draft.hpp"

namespace ligament {

namespace {

bool moves_a_node(std::string_view path) { return path == "translation" || path == "rotation" || path == "scale"; }

std::vector<bool> find_joints(const Gltf& gltf) {
    std::vector<bool> is_joint(gltf.nodes.size(), false);
    for (const GltfSkin& skin : gltf.skins)
        for (const GltfIndex& joint : skin.joints) is_joint[joint.to] = true;
    return is_joint;
}

// Marks spread up to parents.
std::vector<bool> with_ancestors(const GltfTree& tree, std::vector<bool> marked) {
    for (auto at = tree.order.rbegin(); at != tree.order.rend(); ++at)
        if (marked[*at] && tree.parent[*at] != none) marked[tree.parent[*at]] = true;
    return marked;
}

// The children of a node in the tree that bear joints.
std::vector<std::uint32_t> bearing_children(const Gltf& gltf, const GltfTree& tree, const std::vector<bool>& bears,
                                            std::uint32_t node) {
    std::vector<std::uint32_t> children;
    for (const GltfIndex& child : gltf.nodes[node].children)
        if (bears[child.to] && tree.parent[child.to] == node) children.push_back(child.to);
    return children;
}

void set_branch_groups(const Gltf& gltf, const GltfTree& tree, const std::vector<bool>& bears,
                       const std::vector<std::string>& names, std::vector<std::string>& groups) {
    const auto set_below = [&](std::uint32_t node, const std::string& name) {
        for (std::size_t i = tree.place[node]; i < tree.behind[node]; ++i) groups[tree.order[i]] = name;
    };
    for (std::size_t at = 0; at < tree.order.size(); at = tree.behind[tree.order[at]]) {
        const std::uint32_t root = tree.order[at];
        if (!bears[root]) continue;
        std::uint32_t fork = root;
        std::vector<std::uint32_t> branches = bearing_children(gltf, tree, bears, fork);
        while (branches.size() == 1) branches = bearing_children(gltf, tree, bears, fork = branches.front());
        set_below(root, names[branches.empty() ? root : fork]);
        for (const std::uint32_t branch : branches)
            if (tree.behind[branch] - tree.place[branch] > 1) set_below(branch, names[branch]);
    }
}

}  // namespace

GltfRoles find_gltf_roles(const Gltf& gltf, const GltfTree& tree, const Vrm& vrm, const std::vector<SkinWeights>& weights) {
    GltfRoles roles{std::vector<bool>(gltf.nodes.size(), false), std::vector<bool>(gltf.nodes.size(), false)};
    for (std::size_t i = 0; i < gltf.skins.size(); ++i)
        for (std::size_t joint = 0; joint < gltf.skins[i].joints.size(); ++joint)
            if (weights[i].is_weighted[joint]) roles.deform[gltf.skins[i].joints[joint].to] = true;
    bool has_some = vrm.has_humanoid;
    for (std::size_t node = 0; node < gltf.nodes.size(); ++node)
        if (vrm.limb[node]) roles.control[node] = true;
    for (const GltfTarget& target : gltf.targets) {
        if (!target.node.is_given() || !moves_a_node(target.path)) continue;
        roles.control[target.node.to] = true;
        has_some = true;
    }
    if (has_some) return roles;
    const std::vector<bool> is_joint = find_joints(gltf);
    std::vector<bool> is_below(gltf.nodes.size(), false);  // a joint
    for (const std::uint32_t node : tree.order) {
        const std::uint32_t parent = tree.parent[node];
        is_below[node] = parent != none && (is_below[parent] || is_joint[parent]);
        roles.control[node] = is_joint[node] && !is_below[node];
    }
    return roles;
}

void remark_unweighted_joints(const Gltf& gltf, const GltfTree& tree, const GltfRoles& roles,
                              const std::vector<SkinWeights>& weights, const GltfTaker& taker) {
    std::vector<bool> is_used(gltf.nodes.size(), false);  // a joint of a skin that some mesh uses
    for (std::size_t skin = 0; skin < gltf.skins.size(); ++skin)
        for (const GltfIndex& joint : gltf.skins[skin].joints)
            if (weights[skin].is_used) is_used[joint.to] = true;
    const std::vector<bool> is_joint = find_joints(gltf);
    const std::vector<bool> bears_joints = with_ancestors(tree, is_joint), bears_weighted = with_ancestors(tree, roles.deform);
    std::vector<bool> has_joint_below(gltf.nodes.size(), false);
    std::vector<bool> is_under_weighted(gltf.nodes.size(), false);  // the nearest joint above is weighted
    for (const std::uint32_t node : tree.order) {
        const std::uint32_t parent = tree.parent[node];
        if (parent == none) continue;
        if (bears_joints[node]) has_joint_below[parent] = true;
        is_under_weighted[node] = is_joint[parent] ? roles.deform[parent] : is_under_weighted[parent];
    }
    std::vector<BoneId> tips, ancestors, unused, rest;
    for (std::uint32_t node = 0; node < gltf.nodes.size(); ++node) {
        if (!is_joint[node] || roles.deform[node]) continue;
        const bool is_tip = !has_joint_below[node] && is_under_weighted[node];
        (bears_weighted[node] ? ancestors : is_tip ? tips : is_used[node] ? rest : unused).push_back(node);
    }
    const auto remark = [&](const std::vector<BoneId>& bones, std::string message) {
        if (bones.empty()) return;
        const std::uint32_t item = gltf.nodes[bones.front()].item;
        taker.remarks.push_back({Remark::Kind::joint_unweighted, std::move(message), bones, taker.json[item].place, {}});
    };
    const std::string no_vertex = ", no vertex is weighted to ";
    remark(tips, counted(tips.size(), "joint is an end tip", "joints are end tips") + no_vertex +
                     (tips.size() == 1 ? "it" : "them") + ", only to the joint above");
    remark(ancestors, counted(ancestors.size(), "joint only carries", "joints only carry") + " weighted joints" + no_vertex +
                          (ancestors.size() == 1 ? "it" : "them"));
    remark(unused, counted(unused.size(), "joint is", "joints are") + " of skins that no mesh uses" + no_vertex +
                       (unused.size() == 1 ? "it" : "them"));
    remark(rest, counted(rest.size(), "joint is", "joints are") + " neither end tip nor above weighted joints" + no_vertex +
                     (rest.size() == 1 ? "it" : "them"));
}

std::vector<std::string> find_gltf_groups(const Gltf& gltf, const GltfTree& tree, const Vrm& vrm,
                                          const std::vector<std::string>& names) {
    std::vector<std::string> groups(gltf.nodes.size());
    if (vrm.has_humanoid) {
        for (const std::uint32_t node : tree.order) {
            if (vrm.limb[node])
                groups[node] = name_of(*vrm.limb[node]);
            else if (tree.parent[node] != none)
                groups[node] = groups[tree.parent[node]];
        }
        return groups;
    }
    std::vector<bool> bears(gltf.nodes.size(), true);
    if (const std::vector<bool> joints = find_joints(gltf); std::find(joints.begin(), joints.end(), true) != joints.end())
        bears = with_ancestors(tree, joints);
    set_branch_groups(gltf, tree, bears, names, groups);
    return groups;
}

}  // namespace ligament
