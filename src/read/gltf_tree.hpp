// How do the nodes of a glTF file hang together?
#pragma once

#include "gltf_taker.hpp"

namespace ligament {

/// The tree of nodes. The standard wants strict trees (section 3.5.1): what is no such tree is a fault, and then the parents that
/// are left make trees all the same.
struct GltfTree {
    std::vector<std::uint32_t> parent;  ///< of each node, none for roots
    std::vector<std::uint32_t> link;    ///< the item of the JSON that names the node as a child; none for roots
    std::vector<std::uint32_t> order;   ///< parents before children, roots in the order of their numbers
    std::vector<std::uint32_t> root;    ///< of each node
    std::vector<std::uint32_t> place;   ///< of each node in `order`; what hangs under it stands right behind it
    std::vector<std::uint32_t> behind;  ///< of each node: the place in `order` behind all that hangs under it
};

GltfTree build_gltf_tree(const Gltf& gltf, const GltfTaker& taker);

/// Remarks on skins whose joints stand twice, have no common root, or whose `skeleton` is neither that nor above it; and on
/// nodes with a skin whose mesh is missing or has no joints.
void check_gltf_skins(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker);

/// Whether `ancestor` is `node` or above it. Constant time.
inline bool is_above(const GltfTree& tree, std::uint32_t ancestor, std::uint32_t node) {
    return tree.place[ancestor] <= tree.place[node] && tree.place[node] < tree.behind[ancestor];
}

}  // namespace ligament
