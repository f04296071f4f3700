#include "gltf_influences.hpp"

#include <algorithm>
#include <cstring>
#include <limits>
#include <type_traits>

namespace ligament {

namespace {

/// Elements that lie evenly spread.
struct Run {
    const char* first;
    std::uint64_t stride;
};

using Scan = void (*)(Run joints, Run weights, std::uint64_t count, InfluenceTally& tally);

// Of a weight, as its bytes are: a normalised integer is above 0 when it itself is.
template <typename Weight>
bool is_weight(Weight weight) {
    if constexpr (std::is_floating_point_v<Weight>)
        return weight >= 0 && weight <= std::numeric_limits<Weight>::max();  // false for NaN, and for the infinite
    else
        return true;
}

template <typename Joint, typename Weight>
void scan(Run joints, Run weights, std::uint64_t count, InfluenceTally& tally) {
    unsigned char* const is_weighted = tally.is_weighted.data();
    const std::size_t joint_count = tally.is_weighted.size();
    for (std::uint64_t i = 0; i < count; ++i) {
        Joint joint[4];
        Weight weight[4];
        std::memcpy(joint, joints.first + i * joints.stride, sizeof joint);
        std::memcpy(weight, weights.first + i * weights.stride, sizeof weight);
        bool has_stranger = false;
        bool has_no_weight = false;
        for (int k = 0; k < 4; ++k) {
            if (!is_weight(weight[k])) has_no_weight = true;
            if (!(weight[k] > 0)) continue;
            if (joint[k] < joint_count) {
                is_weighted[joint[k]] = 1;
            } else {
                has_stranger = true;
                tally.stranger = std::max<std::uint32_t>(tally.stranger, joint[k]);
            }
        }
        tally.vertices_of_strangers += has_stranger;
        tally.vertices_of_no_weights += has_no_weight;
    }
}

template <typename Joint>
Scan scan_for(GltfComponent weights) {
    if (weights == GltfComponent::u8) return scan<Joint, std::uint8_t>;
    if (weights == GltfComponent::u16) return scan<Joint, std::uint16_t>;
    return scan<Joint, float>;
}

}  // namespace

void tally_influences(const GltfElements& joints, const GltfElements& weights, InfluenceTally& tally) {
    const Scan scan = joints.component == GltfComponent::u8 ? scan_for<std::uint8_t>(weights.component)
                                                            : scan_for<std::uint16_t>(weights.component);
    // From one sparse element of either to the next, the plain ones before it in one go.
    std::uint64_t sparse_joint = 0;
    std::uint64_t sparse_weight = 0;
    for (std::uint64_t at = 0; at < joints.count;) {
        const std::uint64_t next_joint = joints.sparse_index(sparse_joint);
        const std::uint64_t next_weight = weights.sparse_index(sparse_weight);
        const std::uint64_t next = std::min(next_joint, next_weight);
        if (!weights.is_zero) scan({joints.plain(at), joints.stride}, {weights.plain(at), weights.stride}, next - at, tally);
        if (next == joints.count) return;
        scan({next == next_joint ? joints.sparse(sparse_joint) : joints.plain(next), 0},
             {next == next_weight ? weights.sparse(sparse_weight) : weights.plain(next), 0}, 1, tally);
        if (next == next_joint) ++sparse_joint;
        if (next == next_weight) ++sparse_weight;
        at = next + 1;
    }
}

}  // namespace ligament
