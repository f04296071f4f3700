// Where do the elements of an accessor lie?
#pragma once

#include <cstdint>
#include <optional>

#include "gltf_buffers.hpp"

namespace ligament {

/// What an accessor is used for, and so which component types it may have; each element has four components (glTF 2.0, section
/// 3.7.3.1).
enum class GltfUse : std::uint8_t { joints, weights };

/// Elements of an accessor: evenly spread ones, and sparse ones that stand in for some of these. All of it lies inside of the
/// buffers, which must outlive it.
struct GltfElements {
    std::uint64_t count = 0;
    GltfComponent component = GltfComponent::u8;
    std::uint64_t size = 0;       ///< of an element in bytes
    bool is_zero = false;         ///< no view: all are 0 but for sparse ones
    const char* first = nullptr;  ///< of an element of zeros where `is_zero`
    std::uint64_t stride = 0;     ///< 0 where `is_zero`

    std::uint64_t sparse_count = 0;
    const char* sparse_indices = nullptr;  ///< strictly rising, below `count`
    GltfComponent sparse_component = GltfComponent::u8;
    const char* sparse_values = nullptr;  ///< one behind the other

    const char* plain(std::uint64_t i) const { return first + i * stride; }
    const char* sparse(std::uint64_t i) const { return sparse_values + i * size; }
    /// The element that the i-th sparse one stands in for, `count` behind the last.
    std::uint64_t sparse_index(std::uint64_t i) const;
};

/// Checks an accessor against its view, this against its buffer, and all sparse indices. Nothing where something is wrong; all of
/// that is added to `obstacles`. Linear in the number of sparse elements.
std::optional<GltfElements> find_elements(const GltfSource& source, GltfBuffers& buffers, GltfIndex accessor, GltfUse use,
                                          std::vector<Obstacle>& obstacles, Remarks& remarks);

}  // namespace ligament
