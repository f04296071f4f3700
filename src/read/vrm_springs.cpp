// Which nodes swing, and what do they need for it? VRMC_springBone of VRM 1.0, secondary animation of VRM 0.x.
#include <algorithm>

#include "draft.hpp"
#include "vrm.hpp"

namespace ligament {

namespace {

// Most nodes that all springs of a file together may read. Each joint reads all colliders of its spring, so that a small file
// could ask for a very large rig: a check takes some 700 bytes a read where they go in circles.
constexpr std::size_t read_limit = 1'000'000;

// The springs as far as they were taken, and which nodes have one.
struct Springs {
    const Gltf& gltf;
    const GltfTree& tree;
    const GltfTaker& taker;
    Vrm& vrm;
    std::vector<std::uint32_t> spring_of = std::vector<std::uint32_t>(gltf.nodes.size(), none);  // its number, by node
    std::vector<std::uint32_t> list_of = std::vector<std::uint32_t>(gltf.nodes.size(), none);    // the last list it was put in
    std::uint32_t lists = 0;
    std::size_t reads = 0;
};

// A list of nodes, each of which is put in once.
struct NodeList {
    explicit NodeList(Springs& all) : springs(all), number(all.lists++) {}
    void add(GltfIndex node) {
        if (!node.is_given() || springs.list_of[node.to] == number) return;
        springs.list_of[node.to] = number;
        nodes.push_back(node);
    }
    Springs& springs;
    std::uint32_t number;
    std::vector<GltfIndex> nodes;
};

// Whether so many more nodes may be read; one fault where there are too many.
bool may_read(Springs& springs, std::size_t more, std::uint32_t item) {
    const bool was_over = springs.reads > read_limit;
    springs.reads += more;
    if (springs.reads > read_limit && !was_over)
        springs.taker.fault(item, "the springs read more than " + std::to_string(read_limit) + " nodes in all");
    return springs.reads <= read_limit;
}

// A name that each joint of a spring carries on, and that therefore may not be long.
std::string_view take_label(const Springs& springs, std::uint32_t spring, std::string_view key) {
    constexpr std::size_t longest = 1'000;
    const std::string_view label = springs.taker.text(spring, key);
    if (label.size() <= longest) return label;
    springs.taker.fault(spring, in_quotes(key) + " of a spring has " + std::to_string(label.size()) + " bytes, at most " +
                                    std::to_string(longest) + " are taken");
    return {};
}

// Says that a node is in two springs, and that the first one counts.
bool is_taken(Springs& springs, std::uint32_t node, std::uint32_t spring, std::uint32_t item) {
    if (springs.spring_of[node] == none) {
        springs.spring_of[node] = spring;
        return false;
    }
    if (springs.spring_of[node] == spring)
        springs.taker.remark(item, "node " + std::to_string(node) + " is listed twice by spring " + std::to_string(spring),
                             {node});
    else
        springs.taker.remark(item,
                             "node " + std::to_string(node) + " is a joint of two springs, " +
                                 std::to_string(springs.spring_of[node]) + " and " + std::to_string(spring),
                             {node});
    return true;
}

// Calls take(item, position) for the entries of a list that are objects.
template <class Take>
void for_each_object(const GltfTaker& taker, std::uint32_t list, std::string_view noun, Take take) {
    for (const std::uint32_t i : taker.json.inside(list))
        if (taker.is_object(i, noun)) take(i, taker.json[i].position);
}

// The nodes that each group of colliders stands on.
std::vector<std::vector<GltfIndex>> take_colliders(Springs& springs, std::uint32_t extension) {
    const GltfTaker& taker = springs.taker;
    const std::uint32_t list = taker.list(extension, "colliders"), groups = taker.list(extension, "colliderGroups");
    std::vector<GltfIndex> nodes(taker.json.size_of(list));
    for_each_object(taker, list, "a collider", [&](std::uint32_t item, std::uint32_t position) {
        nodes[position] = taker.index(item, "node", springs.gltf.nodes.size(), "node");
        if (nodes[position].item == none) taker.fault(item, "a collider needs \"node\"");
    });
    std::vector<std::vector<GltfIndex>> by_group(taker.json.size_of(groups));
    for_each_object(taker, groups, "a group of colliders", [&](std::uint32_t item, std::uint32_t position) {
        NodeList group(springs);
        for (const GltfIndex& collider : taker.indices(taker.list(item, "colliders"), nodes.size(), "collider"))
            group.add(nodes[collider.to]);
        by_group[position] = std::move(group.nodes);
    });
    return by_group;
}

std::vector<GltfIndex> reads_of(Springs& springs, std::uint32_t spring, const std::vector<std::vector<GltfIndex>>& colliders) {
    NodeList reads(springs);
    const GltfTaker& taker = springs.taker;
    for (const GltfIndex& group : taker.indices(taker.list(spring, "colliderGroups"), colliders.size(), "group of colliders")) {
        if (!may_read(springs, colliders[group.to].size(), group.item)) break;
        for (const GltfIndex& node : colliders[group.to]) reads.add(node);
    }
    return std::move(reads.nodes);
}

// `before` is the joint before it, if there is one.
void add_spring(Springs& springs, std::uint32_t node, GltfIndex before, GltfIndex center, const std::vector<GltfIndex>& colliders,
                std::string_view label, std::uint32_t item) {
    if (!may_read(springs, colliders.size() + 2, item)) return;
    std::vector<GltfIndex> reads;
    if (before.is_given()) reads.push_back(before);
    if (center.is_given() && center.to != before.to) reads.push_back(center);
    for (const GltfIndex& collider : colliders)
        if (collider.to != before.to && collider.to != center.to) reads.push_back(collider);
    springs.vrm.springs.push_back({node, std::move(reads), std::string(label), item});
}

// Every joint but the last swings: the last one only says where the one before it ends.
void take_spring(Springs& springs, std::uint32_t item, std::uint32_t number,
                 const std::vector<std::vector<GltfIndex>>& colliders) {
    const GltfTaker& taker = springs.taker;
    const std::string_view label = take_label(springs, item, "name");
    const std::vector<GltfIndex> collider_nodes = reads_of(springs, item, colliders);
    const GltfIndex center = taker.index(item, "center", springs.gltf.nodes.size(), "node");
    const std::uint32_t list = taker.list(item, "joints");
    std::vector<std::pair<GltfIndex, std::uint32_t>> joints;
    for_each_object(taker, list, "a joint", [&](std::uint32_t joint, std::uint32_t) {
        joints.emplace_back(taker.index(joint, "node", springs.gltf.nodes.size(), "node"), joint);
        if (joints.back().first.item == none) taker.fault(joint, "a joint of a spring needs \"node\"");
        if (!joints.back().first.is_given()) joints.pop_back();
    });
    for (std::size_t i = 0; i < joints.size(); ++i) {
        const auto& [node, joint] = joints[i];
        const bool is_later = i > 0;
        if (is_later && (node.to == joints[i - 1].first.to || !is_above(springs.tree, joints[i - 1].first.to, node.to)))
            taker.remark(joint,
                         "each joint of a spring hangs under the one before it, node " + std::to_string(node.to) +
                             " does not hang under node " + std::to_string(joints[i - 1].first.to),
                         {node.to});
        if (is_taken(springs, node.to, number, joint) || i + 1 == joints.size()) continue;
        add_spring(springs, node.to, is_later ? joints[i - 1].first : GltfIndex{}, center, collider_nodes, label, joint);
    }
}

// VRM 0.x says "none" by -1.
GltfIndex index_or_none(const GltfTaker& taker, std::uint32_t object, std::string_view key, std::size_t size,
                        std::string_view noun) {
    const std::uint32_t item = taker.json.find(object, key);
    if (item != none && taker.json[item].type == Token::Type::number && taker.json[item].number == -1) return {};
    return taker.index(object, key, size, noun);
}

// All that hangs under one of the bones of a group swings.
void take_bone_group(Springs& springs, std::uint32_t item, std::uint32_t number,
                     const std::vector<std::vector<GltfIndex>>& colliders) {
    const GltfTaker& taker = springs.taker;
    const GltfTree& tree = springs.tree;
    const std::string_view label = take_label(springs, item, "comment");
    const std::vector<GltfIndex> collider_nodes = reads_of(springs, item, colliders);
    const GltfIndex center = index_or_none(taker, item, "center", springs.gltf.nodes.size(), "node");
    for (const GltfIndex& root : taker.indices(taker.list(item, "bones"), springs.gltf.nodes.size(), "node")) {
        for (std::uint32_t at = tree.place[root.to]; at < tree.behind[root.to];) {
            const std::uint32_t node = tree.order[at];
            if (is_taken(springs, node, number, root.item)) {
                at = tree.behind[node];
                continue;
            }
            const GltfIndex before = node == root.to ? GltfIndex{} : GltfIndex{tree.parent[node], root.item};
            add_spring(springs, node, before, center, collider_nodes, label, root.item);
            ++at;
        }
    }
}

}  // namespace

void take_spring_bones(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker, Vrm& vrm) {
    const std::uint32_t extension = taker.object(gltf.extensions, "VRMC_springBone");
    if (extension == none) return;
    Springs springs{gltf, tree, taker, vrm};
    const std::vector<std::vector<GltfIndex>> colliders = take_colliders(springs, extension);
    for_each_object(taker, taker.list(extension, "springs"), "a spring",
                    [&](std::uint32_t item, std::uint32_t number) { take_spring(springs, item, number, colliders); });
}

void take_secondary_animation(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker, Vrm& vrm) {
    const std::uint32_t animation = taker.object(taker.object(gltf.extensions, "VRM"), "secondaryAnimation");
    if (animation == none) return;
    Springs springs{gltf, tree, taker, vrm};
    const std::uint32_t groups = taker.list(animation, "colliderGroups");
    std::vector<std::vector<GltfIndex>> colliders(taker.json.size_of(groups));
    for_each_object(taker, groups, "a group of colliders", [&](std::uint32_t item, std::uint32_t position) {
        const GltfIndex node = index_or_none(taker, item, "node", gltf.nodes.size(), "node");
        if (node.is_given()) colliders[position].push_back(node);
    });
    for_each_object(taker, taker.list(animation, "boneGroups"), "a group of bones",
                    [&](std::uint32_t item, std::uint32_t number) { take_bone_group(springs, item, number, colliders); });
}

}  // namespace ligament
