// Which joints of a glTF file is some vertex weighted to?
#pragma once

#include <vector>

#include "gltf_buffers.hpp"

namespace ligament {

struct SkinWeights {
    std::vector<bool> is_weighted;  ///< by place in GltfSkin::joints
    bool is_read = true;            ///< false: some weights could not be read, so that all joints count as weighted
    bool is_used = false;           ///< some node has it, and a mesh
};

/// One for each skin: a joint is weighted when some vertex of a mesh that a node with that skin has gives it a weight above 0.
/// Weights that cannot be read, influences of joints that there are not, and weights that are none are told in `remarks`, in the
/// order of the skins. Each pair of accessors is read once a skin; time is linear in what is read, and bounded.
std::vector<SkinWeights> find_weighted_joints(const GltfSource& source, Remarks& remarks);

}  // namespace ligament
