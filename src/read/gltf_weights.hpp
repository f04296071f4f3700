// Which joints of the skins of a glTF file is some vertex weighted to?
#pragma once

#include "gltf_buffers.hpp"

namespace ligament {

struct SkinWeights {
    std::vector<bool> is_weighted;  ///< by place in GltfSkin::joints
    bool is_read = true;            ///< false: all count as weighted, since the numbers could not be read
};

/// By skin. A joint is weighted where a vertex of a mesh that a node has with that skin gives it more than 0 in any set of
/// influences (section 3.7.3 of the standard). What is absent or compressed is remarked upon once a skin and reason; what breaks
/// the standard also. Linear in the numbers that are there; what an accessor states is never believed beyond them.
std::vector<SkinWeights> find_weighted_joints(const GltfSource& source, Remarks& remarks);

}  // namespace ligament
