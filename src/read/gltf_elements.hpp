// Which numbers does an accessor of a glTF file hold?
#pragma once

#include "gltf_buffers.hpp"

namespace ligament {

/// The entries of an accessor of four components, read where they lie: on a view or on zeros, with entries that stand apart.
class GltfElements {
  public:
    /// Nothing, with the reason, where the accessor is not of type VEC4 with one of `components`, or what it needs is missing or
    /// does not fit.
    static std::optional<GltfElements> open(const GltfSource& source, GltfBuffers& buffers, std::uint32_t accessor,
                                            std::initializer_list<GltfComponent> components, std::string& reason);

    std::uint64_t count() const { return count_; }
    /// Whether all entries but those apart are zeros: only these need to be looked at then.
    bool is_on_zeros() const { return base_.empty(); }
    std::uint64_t apart() const { return apart_indices_.size(); }
    std::uint64_t apart_index(std::uint64_t at) const { return apart_indices_[at]; }
    /// The four numbers of an entry, as they are stored.
    std::array<double, 4> operator[](std::uint64_t index) const;

  private:
    std::string_view base_;
    std::uint64_t stride_ = 0, count_ = 0;
    GltfComponent component_ = GltfComponent::u8;
    std::vector<std::uint64_t> apart_indices_;  // rising
    std::string_view apart_values_;
};

}  // namespace ligament
