// A glTF file for tests, put together by hand.
#pragma once

#include <gtest/gtest.h>

#include <cstring>
#include <limits>

#include "gltf_weights.hpp"

namespace ligament::testing {

inline constexpr std::uint32_t u8 = 5121, u16 = 5123, u32 = 5125, f32 = 5126;
inline constexpr std::uint64_t huge = std::numeric_limits<std::uint64_t>::max();

template <typename T>
std::string packed(std::initializer_list<T> numbers) {
    std::string bytes(numbers.size() * sizeof(T), '\0');
    std::memcpy(bytes.data(), std::data(numbers), bytes.size());
    return bytes;
}
inline std::string floats(std::initializer_list<float> numbers) { return packed<float>(numbers); }
inline std::string octets(std::initializer_list<std::uint8_t> numbers) { return packed<std::uint8_t>(numbers); }
inline std::string shorts(std::initializer_list<std::uint16_t> numbers) { return packed<std::uint16_t>(numbers); }

// A file of one skin of four joints, put together by hand. The JSON has one value, at 7:3, that all is about.
struct File {
    Gltf gltf;
    JsonDocument json;
    std::string binary;
    std::string folder;
    ReadOptions options;
    std::string remarks;  // of the last reading, a line each

    File() {
        json.items.resize(1);
        json.items[0].place = {7, 3};
        gltf.buffers.push_back({0, std::nullopt, 0});
        add_skin("heron", 4);
    }
    static std::uint32_t index_of_last(std::size_t size) { return static_cast<std::uint32_t>(size - 1); }

    std::uint32_t add_skin(std::string_view name, std::uint32_t joints) {
        GltfSkin skin;
        skin.item = 0;
        skin.name = name;
        for (std::uint32_t i = 0; i < joints; ++i) skin.joints.push_back({100 + i, 0});
        gltf.skins.push_back(skin);
        return index_of_last(gltf.skins.size());
    }
    std::uint32_t add_view(std::string_view bytes, std::uint64_t stride = 0) {
        gltf.views.push_back({0, {0, 0}, binary.size(), bytes.size(), stride, false});
        binary += bytes;
        gltf.buffers[0].length = binary.size();
        return index_of_last(gltf.views.size());
    }
    // Without a view: zeros.
    std::uint32_t add_accessor(std::uint32_t component, std::uint64_t count, std::uint32_t view = none,
                               std::uint64_t offset = 0) {
        GltfAccessor accessor{0, {view, 0}, offset, count, component, "VEC4", false, std::nullopt};
        accessor.normalized = component != f32;
        gltf.accessors.push_back(accessor);
        return index_of_last(gltf.accessors.size());
    }
    std::uint32_t add_data(std::uint32_t component, std::uint64_t count, std::string_view bytes) {
        return add_accessor(component, count, add_view(bytes));
    }
    void set_sparse(std::uint32_t accessor, std::uint32_t component, std::uint64_t count, std::string_view indices,
                    std::string_view values) {
        const std::uint32_t indices_view = add_view(indices);
        gltf.accessors[accessor].sparse = GltfSparse{count, {indices_view, 0}, {add_view(values), 0}, 0, 0, component};
    }
    std::uint32_t add_mesh(std::vector<GltfInfluences> sets) {
        gltf.meshes.push_back({{{0, std::move(sets), false}}});
        return index_of_last(gltf.meshes.size());
    }
    std::uint32_t add_mesh(std::uint32_t joints, std::uint32_t weights) { return add_mesh({{0, {joints, 0}, {weights, 0}}}); }
    void add_node(std::uint32_t mesh, std::uint32_t skin = 0) {
        GltfNode node;
        node.mesh = {mesh, 0};
        node.skin = {skin, 0};
        gltf.nodes.push_back(node);
    }

    // Skins apart by a blank: x a weighted joint, . another; "?" where weights were not read, "-" for a skin that no mesh uses.
    std::string read() {
        Remarks told;
        std::string text;
        for (const SkinWeights& skin : find_weighted_joints({gltf, json, binary, folder, options}, told)) {
            if (!text.empty()) text += ' ';
            for (const bool is_weighted : skin.is_weighted) text += is_weighted ? 'x' : '.';
            if (!skin.is_read) text += '?';
            if (!skin.is_used) text += '-';
        }
        remarks.clear();
        for (const Remark& remark : told) {
            EXPECT_EQ(remark.place, (Place{7, 3}));
            remarks += (remark.kind == Remark::Kind::weights_unread ? "unread: " : "broken: ") + remark.message + "\n";
        }
        return text;
    }
};

// A file of one mesh of one set, with the skin.
inline File one_mesh(std::uint32_t joint_type, std::string_view joints, std::uint32_t weight_type, std::string_view weights,
                     std::uint64_t count) {
    File file;
    const std::uint32_t joint_accessor = file.add_data(joint_type, count, joints);
    file.add_node(file.add_mesh(joint_accessor, file.add_data(weight_type, count, weights)));
    return file;
}

}  // namespace ligament::testing
