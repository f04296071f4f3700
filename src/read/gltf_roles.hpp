// Which nodes of a glTF file are controls, which deform a skin, and of which groups are they?
#pragma once

#include "gltf_weights.hpp"
#include "vrm.hpp"

namespace ligament {

struct GltfRoles {
    std::vector<bool> control, deform;  ///< by node
};

/// Deform: the joints that vertices are weighted to. Control: what an animation moves (translation, rotation or scale) and the
/// bones of a VRM humanoid; in a file that has neither, the joints that hang under no other joint.
GltfRoles find_gltf_roles(const Gltf& gltf, const GltfTree& tree, const Vrm& vrm, const std::vector<SkinWeights>& weights);

/// Remarks on joints that no vertex is weighted to: end tips (no joint below, under a weighted one), ancestors of weighted
/// joints, those of skins that no mesh uses, the rest.
void remark_unweighted_joints(const Gltf& gltf, const GltfTree& tree, const GltfRoles& roles,
                              const std::vector<SkinWeights>& weights, const GltfTaker& taker);

/// The group of each node, empty for none. In a VRM humanoid: the limb of the nearest humanoid bone above it. Else the top
/// branches: below the trunk (a root and what follows it as long as only one child bears joints) each child that bears joints is
/// a group with all below it, named by `names`, unless it is a single node; that belongs to the trunk. The trunk's group has the
/// name of the node at which it forks, that of its root where it does not. A tree without joints has no group, unless the whole
/// file has none.
std::vector<std::string> find_gltf_groups(const Gltf& gltf, const GltfTree& tree, const Vrm& vrm,
                                          const std::vector<std::string>& names);

}  // namespace ligament
