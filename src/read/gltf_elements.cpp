#include "gltf_elements.hpp"

#include <algorithm>
#include <bit>
#include <cstring>

#include "draft.hpp"

namespace ligament {

namespace {

std::size_t size_of(std::uint32_t component) {
    switch (static_cast<GltfComponent>(component)) {
        case GltfComponent::i8:
        case GltfComponent::u8:
            return 1;
        case GltfComponent::i16:
        case GltfComponent::u16:
            return 2;
        case GltfComponent::u32:
        case GltfComponent::f32:
            return 4;
    }
    return 0;
}

// Little-endian on any machine.
std::uint32_t whole_at(const char* at, std::size_t size) {
    std::uint32_t number = 0;
    for (std::size_t i = size; i-- > 0;) number = number << 8U | static_cast<unsigned char>(at[i]);
    return number;
}

double number_at(const char* at, GltfComponent component) {
    const std::uint32_t whole = whole_at(at, size_of(static_cast<std::uint32_t>(component)));
    return component == GltfComponent::f32 ? static_cast<double>(std::bit_cast<float>(whole)) : static_cast<double>(whole);
}

// `count` entries of `size` bytes, `stride` apart from `offset` on. Counts near 2^64 must not wrap around.
bool fits(std::uint64_t length, std::uint64_t offset, std::uint64_t stride, std::uint64_t size, std::uint64_t count) {
    if (count == 0) return true;
    if (offset > length || size > length - offset) return false;
    return count - 1 <= (length - offset - size) / stride;
}

std::string accessor_text(std::uint32_t accessor) { return "accessor " + std::to_string(accessor); }

}  // namespace

std::optional<GltfElements> GltfElements::open(const GltfSource& source, GltfBuffers& buffers, std::uint32_t accessor,
                                               std::initializer_list<GltfComponent> components, std::string& reason) {
    const GltfAccessor& from = source.gltf.accessors[accessor];
    GltfElements elements;
    elements.component_ = static_cast<GltfComponent>(from.component);
    elements.count_ = from.count;
    if (from.type != "VEC4" || std::find(components.begin(), components.end(), elements.component_) == components.end()) {
        reason = accessor_text(accessor) + " is of type " + in_quotes(from.type) + " and component type " +
                 std::to_string(from.component) + ", which no joints or weights may have";
        return std::nullopt;
    }
    const std::uint64_t size = 4 * size_of(from.component);
    const auto view_of = [&](GltfIndex index) { return buffers.view(index.to, reason); };
    if (from.view.is_given()) {
        const std::optional<std::string_view> view = view_of(from.view);
        if (!view) return std::nullopt;
        const std::uint64_t stride = source.gltf.views[from.view.to].stride;
        elements.stride_ = stride == 0 ? size : stride;
        if (!fits(view->size(), from.offset, elements.stride_, size, from.count)) {
            reason = accessor_text(accessor) + " has more numbers than buffer view " + std::to_string(from.view.to) + " holds";
            return std::nullopt;
        }
        elements.base_ = from.count == 0 ? std::string_view() : view->substr(from.offset);
    } else if (from.view.item != none) {
        reason = accessor_text(accessor) + " has a buffer view that does not exist";
        return std::nullopt;
    }
    if (!from.sparse) return elements;
    const GltfSparse& sparse = *from.sparse;
    const std::string what = "the sparse entries of " + accessor_text(accessor);
    if (!sparse.indices_view.is_given() || !sparse.values_view.is_given()) {
        reason = what + " have no buffer view";
        return std::nullopt;
    }
    const std::optional<std::string_view> indices = view_of(sparse.indices_view);
    const std::optional<std::string_view> values = indices ? view_of(sparse.values_view) : std::nullopt;
    if (!values) return std::nullopt;
    const std::uint64_t index_size = size_of(sparse.indices_component);
    if (index_size == 0 || !fits(indices->size(), sparse.indices_offset, index_size, index_size, sparse.count) ||
        !fits(values->size(), sparse.values_offset, size, size, sparse.count)) {
        reason = what + " are more than their buffer views hold";
        return std::nullopt;
    }
    for (std::uint64_t i = 0; i < sparse.count; ++i) {
        const std::uint64_t index = whole_at(indices->data() + sparse.indices_offset + i * index_size, index_size);
        if (index >= from.count || (i > 0 && index <= elements.apart_indices_.back())) {
            reason = what + " do not rise up to its count";
            return std::nullopt;
        }
        elements.apart_indices_.push_back(index);
    }
    elements.apart_values_ = sparse.count == 0 ? std::string_view() : values->substr(sparse.values_offset);
    return elements;
}

std::array<double, 4> GltfElements::operator[](std::uint64_t index) const {
    const char* at = base_.empty() ? nullptr : base_.data() + index * stride_;
    const std::size_t size = size_of(static_cast<std::uint32_t>(component_));
    if (!apart_indices_.empty()) {
        const auto found = std::lower_bound(apart_indices_.begin(), apart_indices_.end(), index);
        if (found != apart_indices_.end() && *found == index)
            at = apart_values_.data() + static_cast<std::size_t>(found - apart_indices_.begin()) * 4 * size;
    }
    std::array<double, 4> numbers{};
    if (at != nullptr)
        for (std::size_t i = 0; i < 4; ++i) numbers[i] = number_at(at + i * size, component_);
    return numbers;
}

}  // namespace ligament
