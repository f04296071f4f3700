// What do the influences of vertices say, pair of accessors by pair?
#pragma once

#include <cstdint>
#include <vector>

#include "gltf_elements.hpp"

namespace ligament {

/// What was seen in the influences of one pair of accessors.
struct InfluenceTally {
    std::vector<unsigned char> is_weighted;    ///< by place in GltfSkin::joints: some weight is above 0; grows no further
    std::uint64_t vertices_of_strangers = 0;   ///< with a weight above 0 for a joint that there is not
    std::uint32_t stranger = 0;                ///< the highest such joint
    std::uint64_t vertices_of_no_weights = 0;  ///< with a weight that is negative or not finite
};

/// Adds the influences of all vertices to `tally`. Both have equally many elements. Linear in those that lie in a buffer: of
/// zeros only sparse ones cost time.
void tally_influences(const GltfElements& joints, const GltfElements& weights, InfluenceTally& tally);

}  // namespace ligament
