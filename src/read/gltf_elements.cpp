#include "gltf_elements.hpp"

#include <array>
#include <cstring>

#include "draft.hpp"

namespace ligament {

namespace {

constexpr std::array<char, 16> zeros{};

template <typename T>
std::uint64_t number_at(const char* bytes, std::uint64_t i) {
    T number;
    std::memcpy(&number, bytes + i * sizeof(T), sizeof(T));
    return number;
}

std::uint64_t size_of(GltfComponent component) {
    switch (component) {
        case GltfComponent::i8:
        case GltfComponent::u8:
            return 1;
        case GltfComponent::i16:
        case GltfComponent::u16:
            return 2;
        case GltfComponent::u32:
        case GltfComponent::f32:
            break;
    }
    return 4;
}

bool is_component_of(GltfUse use, GltfComponent component) {
    return component == GltfComponent::u8 || component == GltfComponent::u16 ||
           (use == GltfUse::weights && component == GltfComponent::f32);
}

// Evenly spread bytes that are wanted of a view.
struct Wanted {
    std::string what;    // "accessor 3", "the sparse indices of accessor 3"
    std::uint32_t item;  // of the JSON
    std::uint64_t offset, count, size, stride;
};

struct Search {
    const GltfSource& source;
    GltfBuffers& buffers;
    std::vector<Obstacle>& obstacles;
    Remarks& remarks;

    void obstacle(std::uint32_t item, std::string reason) { obstacles.push_back({std::move(reason), item, true}); }

    const GltfView* find_view(GltfIndex view) {
        if (view.to < source.gltf.views.size()) return &source.gltf.views[view.to];
        obstacle(view.item, "there is no buffer view " + std::to_string(view.to) + ", the file has " +
                                std::to_string(source.gltf.views.size()));
        return nullptr;
    }

    // Does `wanted` fit into the view? By its own length alone, so that a buffer need not be read for that.
    bool fits(const Wanted& wanted, const GltfView& view, GltfIndex index) {
        // offset + (count - 1) * stride + size <= length (section 3.6.2.4), without a sum or product that may overflow.
        const std::uint64_t more = wanted.count - 1;
        const bool fits = wanted.offset <= view.length && wanted.size <= view.length - wanted.offset &&
                          (wanted.stride == 0 || more <= (view.length - wanted.offset - wanted.size) / wanted.stride);
        if (!fits)
            obstacle(wanted.item, "buffer view " + std::to_string(index.to) + " of " + std::to_string(view.length) +
                                      " bytes is too small for " + wanted.what + " (offset " + std::to_string(wanted.offset) +
                                      ", " + std::to_string(wanted.count) + " elements of " + std::to_string(wanted.size) +
                                      " bytes, " + std::to_string(wanted.stride) + " apart)");
        return fits;
    }

    // The bytes of `wanted`, from its offset on.
    const char* find_bytes(const Wanted& wanted, const GltfView& view, GltfIndex index) {
        if (view.is_compressed) {
            obstacles.push_back({"buffer view " + std::to_string(index.to) + " is compressed by an extension", view.item, false});
            return nullptr;
        }
        if (!fits(wanted, view, index)) return nullptr;
        const std::optional<std::string_view> bytes = buffers.find(view.buffer, obstacles, remarks);
        if (!bytes) return nullptr;
        if (view.offset > bytes->size() || view.length > bytes->size() - view.offset) {
            // Where the buffer is shorter than its own length, that has been told.
            const std::uint64_t length = source.gltf.buffers[view.buffer.to].length;
            const bool is_view_wrong = view.offset > length || view.length > length - view.offset;
            obstacles.push_back({"buffer " + std::to_string(view.buffer.to) + " of " + std::to_string(bytes->size()) +
                                     " bytes is too small for buffer view " + std::to_string(index.to) + " (offset " +
                                     std::to_string(view.offset) + ", " + std::to_string(view.length) + " bytes)",
                                 view.item, is_view_wrong});
            return nullptr;
        }
        return bytes->data() + view.offset + wanted.offset;
    }

    const char* find_packed(const Wanted& wanted, GltfIndex index) {
        const GltfView* view = find_view(index);
        if (view == nullptr) return nullptr;
        if (view->stride == 0) return find_bytes(wanted, *view, index);
        // Section 3.6.2.3.
        obstacle(view->item, "buffer view " + std::to_string(index.to) + " holds sparse elements, and has a stride of " +
                                 std::to_string(view->stride) + " bytes where there may be none");
        return nullptr;
    }

    bool check_type(const GltfAccessor& accessor, const std::string& name, GltfUse use) {
        const std::size_t before = obstacles.size();
        const std::string purpose = use == GltfUse::joints ? "joints" : "weights";
        if (accessor.type != "VEC4")
            obstacle(accessor.item,
                     name + " for " + purpose + " is of type " + in_quotes(accessor.type) + ", wanted is \"VEC4\"");
        if (!is_component_of(use, static_cast<GltfComponent>(accessor.component)))
            obstacle(accessor.item, name + " for " + purpose + " has component type " + std::to_string(accessor.component) +
                                        (use == GltfUse::joints ? ", wanted is 5121 or 5123" : ", wanted is 5121, 5123 or 5126"));
        return obstacles.size() == before;
    }

    bool check_sparse_indices(const GltfElements& elements, std::uint32_t item, const std::string& name) {
        for (std::uint64_t i = 0; i < elements.sparse_count; ++i) {
            const std::uint64_t index = elements.sparse_index(i);
            if (index >= elements.count) {
                obstacle(item, "sparse index " + std::to_string(index) + " of " + name +
                                   " is not below its number of elements, " + std::to_string(elements.count));
                return false;
            }
            if (i > 0 && index <= elements.sparse_index(i - 1)) {
                obstacle(item, "sparse indices of " + name + " do not rise: " + std::to_string(index) + " comes behind " +
                                   std::to_string(elements.sparse_index(i - 1)));
                return false;
            }
        }
        return true;
    }

    bool find_sparse(const GltfAccessor& accessor, const std::string& name, GltfElements& elements) {
        const GltfSparse& sparse = *accessor.sparse;
        if (sparse.count > accessor.count) {
            obstacle(accessor.item, name + " has " + std::to_string(sparse.count) + " sparse elements, and " +
                                        std::to_string(accessor.count) + " in all");
            return false;
        }
        if (sparse.count == 0) return true;
        elements.sparse_component = static_cast<GltfComponent>(sparse.indices_component);
        const bool is_index = elements.sparse_component == GltfComponent::u8 || elements.sparse_component == GltfComponent::u16 ||
                              elements.sparse_component == GltfComponent::u32;
        if (is_index) {
            const std::uint64_t size = size_of(elements.sparse_component);
            elements.sparse_indices =
                find_packed({"the sparse indices of " + name, accessor.item, sparse.indices_offset, sparse.count, size, size},
                            sparse.indices_view);
        } else {
            obstacle(accessor.item, "sparse indices of " + name + " have component type " +
                                        std::to_string(sparse.indices_component) + ", wanted is 5121, 5123 or 5125");
        }
        elements.sparse_values = find_packed(
            {"the sparse values of " + name, accessor.item, sparse.values_offset, sparse.count, elements.size, elements.size},
            sparse.values_view);
        if (elements.sparse_indices == nullptr) return false;
        elements.sparse_count = sparse.count;
        return check_sparse_indices(elements, accessor.item, name) && elements.sparse_values != nullptr;
    }
};

}  // namespace

std::uint64_t GltfElements::sparse_index(std::uint64_t i) const {
    if (i >= sparse_count) return count;
    if (sparse_component == GltfComponent::u8) return number_at<std::uint8_t>(sparse_indices, i);
    if (sparse_component == GltfComponent::u16) return number_at<std::uint16_t>(sparse_indices, i);
    return number_at<std::uint32_t>(sparse_indices, i);
}

std::optional<GltfElements> find_elements(const GltfSource& source, GltfBuffers& buffers, GltfIndex index, GltfUse use,
                                          std::vector<Obstacle>& obstacles, Remarks& remarks) {
    Search search{source, buffers, obstacles, remarks};
    if (index.to >= source.gltf.accessors.size()) {
        search.obstacle(index.item, "there is no accessor " + std::to_string(index.to) + ", the file has " +
                                        std::to_string(source.gltf.accessors.size()));
        return std::nullopt;
    }
    const GltfAccessor& accessor = source.gltf.accessors[index.to];
    const std::string name = "accessor " + std::to_string(index.to);
    if (!search.check_type(accessor, name, use)) return std::nullopt;

    GltfElements elements;
    elements.count = accessor.count;
    elements.component = static_cast<GltfComponent>(accessor.component);
    elements.size = 4 * size_of(elements.component);
    elements.is_zero = !accessor.view.is_given() || accessor.count == 0;
    elements.first = zeros.data();
    if (!elements.is_zero) {
        elements.first = nullptr;
        if (const GltfView* view = search.find_view(accessor.view); view != nullptr) {
            elements.stride = view->stride == 0 ? elements.size : view->stride;
            elements.first = search.find_bytes(
                {name, accessor.item, accessor.offset, accessor.count, elements.size, elements.stride}, *view, accessor.view);
        }
    }
    const bool is_sparse_found = !accessor.sparse || search.find_sparse(accessor, name, elements);
    if (elements.first == nullptr || !is_sparse_found) return std::nullopt;
    return elements;
}

}  // namespace ligament
