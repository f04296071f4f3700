// Does each scene of a glTF file hold what its skins need?
#pragma once

#include "gltf_tree.hpp"

namespace ligament {

/// Remarks on nodes that stand twice in a scene, on what is no root, and on nodes whose skin has its joints in another scene.
void check_gltf_scenes(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker);

}  // namespace ligament
