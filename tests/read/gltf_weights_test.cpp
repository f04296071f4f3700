// Are the joints found that vertices are weighted to? Source: glTF 2.0 (ISO/IEC 12113:2022), sections 3.6 (buffers, views,
// accessors, sparse ones) and 3.7.3 (skins), from memory. Its words that a check rests on stand beside it.
#include "gltf_weights.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstring>
#include <filesystem>
#include <fstream>
#include <limits>

namespace ligament::testing {
namespace {

constexpr std::uint32_t u8 = 5121, u16 = 5123, u32 = 5125, f32 = 5126;
constexpr std::uint64_t huge = std::numeric_limits<std::uint64_t>::max();

template <typename T>
std::string packed(std::initializer_list<T> numbers) {
    std::string bytes(numbers.size() * sizeof(T), '\0');
    std::memcpy(bytes.data(), std::data(numbers), bytes.size());
    return bytes;
}
std::string floats(std::initializer_list<float> numbers) { return packed<float>(numbers); }
std::string octets(std::initializer_list<std::uint8_t> numbers) { return packed<std::uint8_t>(numbers); }
std::string shorts(std::initializer_list<std::uint16_t> numbers) { return packed<std::uint16_t>(numbers); }

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
File one_mesh(std::uint32_t joint_type, std::string_view joints, std::uint32_t weight_type, std::string_view weights,
              std::uint64_t count) {
    File file;
    const std::uint32_t joint_accessor = file.add_data(joint_type, count, joints);
    file.add_node(file.add_mesh(joint_accessor, file.add_data(weight_type, count, weights)));
    return file;
}

// A weight that is not there for a vertex is 0, and its joint 0 then says nothing.
TEST(gltf_weights, above_zero_make_a_joint_weighted) {
    File file = one_mesh(u8, octets({1, 2, 0, 0, 3, 1, 0, 0}), f32, floats({0.5F, 0.5F, 0, 0, 0, 1, 0, 0}), 2);
    EXPECT_EQ(file.read(), ".xx.");
    EXPECT_EQ(file.remarks, "");
    file = one_mesh(u16, shorts({3, 0, 0, 0}), f32, floats({1e-40F, 0, -0.0F, 0}), 1);
    EXPECT_EQ(file.read(), "...x");
    EXPECT_EQ(file.remarks, "");
}

// 3.7.3.3: JOINTS_n are unsigned bytes or shorts, WEIGHTS_n floats or normalised unsigned bytes or shorts.
TEST(gltf_weights, are_of_six_pairs_of_types) {
    const std::string joints8 = octets({0, 1, 2, 3});
    const std::string joints16 = shorts({0, 1, 2, 3});
    for (const auto& [type, joints] : {std::pair(u8, joints8), std::pair(u16, joints16)}) {
        EXPECT_EQ(one_mesh(type, joints, u8, octets({0, 255, 0, 1}), 1).read(), ".x.x");
        EXPECT_EQ(one_mesh(type, joints, u16, shorts({0, 256, 0, 1}), 1).read(), ".x.x");
        EXPECT_EQ(one_mesh(type, joints, f32, floats({0, 0.75F, 0, 0.25F}), 1).read(), ".x.x");
    }
    File file = one_mesh(u8, joints8, u8, octets({0, 255, 0, 0}), 1);
    file.gltf.accessors[1].normalized = false;
    EXPECT_EQ(file.read(), ".x..");
    EXPECT_EQ(file.remarks, "broken: accessor 1 for weights is of integers, and they are not normalised\n");
}

TEST(gltf_weights, come_in_several_sets) {
    File file;
    const std::uint32_t first = file.add_data(u8, 1, octets({0, 0, 0, 0}));
    const std::uint32_t second = file.add_data(u8, 1, octets({3, 2, 1, 0}));
    const std::uint32_t full = file.add_data(f32, 1, floats({0.5F, 0, 0, 0}));
    const std::uint32_t half = file.add_data(f32, 1, floats({0.5F, 0, 0, 0}));
    file.add_node(file.add_mesh({{0, {first, 0}, {full, 0}}, {1, {second, 0}, {half, 0}}}));
    EXPECT_EQ(file.read(), "x..x");
    EXPECT_EQ(file.remarks, "");
}

// 3.6.2.4: elements lie byteStride apart, the first at the sum of both offsets.
TEST(gltf_weights, lie_a_stride_apart) {
    File file;
    file.add_view("1234");
    // A vertex has its joints in bytes 0 to 3, its weights in bytes 4 to 7.
    const std::uint32_t view = file.add_view(octets({9, 9, 9, 9,                  //
                                                     1, 0, 0, 0, 255, 0,   0, 0,  //
                                                     2, 0, 0, 0, 0,   255, 0, 0,  //
                                                     3, 0, 0, 0, 255, 0,   0, 0}),
                                             8);
    const std::uint32_t joints = file.add_accessor(u8, 3, view, 4);
    file.add_node(file.add_mesh(joints, file.add_accessor(u8, 3, view, 8)));
    EXPECT_EQ(file.read(), "xx.x");
    EXPECT_EQ(file.remarks, "");
    // The last element ends with the view: one byte less is too little.
    --file.gltf.views[view].length;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(
        file.remarks,
        "broken: accessor 1 (offset 8, 3 elements of 4 bytes, 8 apart) does not fit into buffer view 1 of 27 bytes\n"
        "unread: skin \"heron\": its weights cannot be read: accessor 1 (offset 8, 3 elements of 4 bytes, 8 apart) does not fit "
        "into buffer view 1 of 27 bytes, so all its 4 joints count as deform bones\n");
}

// 3.6.2.1: without a view an accessor is of zeros.
TEST(gltf_weights, are_zeros_without_a_view) {
    File file;
    const std::uint32_t joints = file.add_accessor(u8, 2);
    file.add_node(file.add_mesh(joints, file.add_data(f32, 2, floats({0, 0, 0, 0, 0, 0, 1, 0}))));
    EXPECT_EQ(file.read(), "x...");
    File none_weighted;
    const std::uint32_t others = none_weighted.add_accessor(u16, std::uint64_t{1} << 53U);
    none_weighted.add_node(none_weighted.add_mesh(others, none_weighted.add_accessor(f32, std::uint64_t{1} << 53U)));
    EXPECT_EQ(none_weighted.read(), "....");
    EXPECT_EQ(none_weighted.remarks, "");
}

// 3.6.2.3: sparse elements stand in for those of the view, or for zeros; indices are bytes, shorts or ints.
TEST(gltf_weights, may_be_sparse_over_a_view) {
    const std::string all_of_first = floats({1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0});
    for (const auto& [type, indices] :
         {std::pair(u8, octets({1, 2})), std::pair(u16, shorts({1, 2})), std::pair(u32, packed<std::uint32_t>({1, 2}))}) {
        File file = one_mesh(u8, octets({0, 1, 2, 3, 1, 2, 3, 3, 2, 1, 3, 3}), f32, all_of_first, 3);
        EXPECT_EQ(file.read(), "xxx.");
        file.set_sparse(1, type, 2, indices, floats({0, 0, 0, 1, 0, 0, 0, 0}));
        EXPECT_EQ(file.read(), "x..x");
        EXPECT_EQ(file.remarks, "");
    }
    File file = one_mesh(u8, octets({0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}), f32, all_of_first, 3);
    file.set_sparse(0, u8, 3, octets({0, 1, 2}), octets({1, 0, 0, 0, 2, 0, 0, 0, 1, 0, 0, 0}));
    EXPECT_EQ(file.read(), ".xx.");
}

TEST(gltf_weights, may_be_sparse_over_zeros) {
    File file;
    // Of a vast number of vertices three have weights, and two have joints.
    constexpr std::uint64_t count = std::uint64_t{1} << 32U;
    const std::uint32_t joints = file.add_accessor(u16, count);
    const std::uint32_t weights = file.add_accessor(f32, count);
    file.set_sparse(joints, u32, 2, packed<std::uint32_t>({5, 4'000'000'000}), shorts({1, 1, 1, 1, 2, 2, 3, 2}));
    file.set_sparse(weights, u32, 2, packed<std::uint32_t>({6, 4'000'000'000}), floats({1, 0, 0, 0, 0, 0, 1, 0}));
    file.add_node(file.add_mesh(joints, weights));
    EXPECT_EQ(file.read(), "x..x");
    EXPECT_EQ(file.remarks, "");
}

TEST(gltf_weights, are_unread_where_sparse_indices_are_wrong) {
    const auto remarks_with = [](std::uint32_t type, std::uint64_t count, std::string_view indices) {
        File file = one_mesh(u8, octets({0, 0, 0, 0, 0, 0, 0, 0}), f32, floats({1, 0, 0, 0, 1, 0, 0, 0}), 2);
        file.set_sparse(1, type, count, indices, std::string(32, '\0'));
        EXPECT_EQ(file.read(), "xxxx?");
        return file.remarks.substr(0, file.remarks.find('\n'));
    };
    EXPECT_EQ(remarks_with(u8, 2, octets({1, 0})), "broken: sparse indices of accessor 1 do not rise: 0 comes behind 1");
    EXPECT_EQ(remarks_with(u8, 2, octets({1, 1})), "broken: sparse indices of accessor 1 do not rise: 1 comes behind 1");
    EXPECT_EQ(remarks_with(u8, 2, octets({0, 2})), "broken: sparse index 2 of accessor 1 is not below its number of elements, 2");
    EXPECT_EQ(remarks_with(u8, 3, octets({0, 1, 2})), "broken: accessor 1 has 3 sparse elements, and 2 in all");
    EXPECT_EQ(remarks_with(f32, 2, floats({0, 1})),
              "broken: sparse indices of accessor 1 have component type 5126, wanted is 5121, 5123 or 5125");
    EXPECT_EQ(
        remarks_with(u16, 2, octets({0, 1})),
        "broken: the sparse indices of accessor 1 (offset 0, 2 elements of 2 bytes, 2 apart) does not fit into buffer view 2 of "
        "2 bytes");
}

TEST(gltf_weights, are_read_once_where_nodes_share_them) {
    File file = one_mesh(u8, octets({1, 0, 0, 0}), f32, floats({-1, 1, 0, 0}), 1);
    file.add_node(0);
    file.add_node(0);
    EXPECT_EQ(file.read(), "x...");
    EXPECT_EQ(file.remarks, "broken: accessor 1 for weights has 1 vertex with a weight that is negative or not finite\n");
}

// Joints count for the skin of the node, so that one mesh means other bones with another skin.
TEST(gltf_weights, count_for_the_skins_of_their_nodes) {
    File file = one_mesh(u8, octets({1, 3, 0, 0}), u8, octets({255, 0, 0, 0}), 1);
    file.add_skin("chick", 2);
    file.add_skin("egg", 3);
    file.add_node(0, 1);
    EXPECT_EQ(file.read(), ".x.. .x ...-");
    file.gltf.nodes.push_back({});        // neither
    file.add_node(none, 2);               // no mesh
    file.gltf.nodes.back().mesh.to = 50;  // no such mesh
    EXPECT_EQ(file.read(), ".x.. .x ...-");
    EXPECT_EQ(file.remarks, "");
}

TEST(gltf_weights, of_a_joint_that_there_is_not_are_told) {
    File file = one_mesh(u8, octets({1, 4, 200, 0, 250, 0, 0, 0}), u8, octets({1, 1, 1, 0, 0, 0, 0, 0}), 2);
    EXPECT_EQ(file.read(), ".x..");
    EXPECT_EQ(file.remarks, "broken: skin \"heron\" has 4 joints, accessor 0 weights 1 vertex to others, up to joint 200\n");
}

// 3.6.2.2: floats are finite; 3.7.3.3: weights are not negative.
TEST(gltf_weights, that_are_none_are_told) {
    const float nan = std::numeric_limits<float>::quiet_NaN();
    const float infinity = std::numeric_limits<float>::infinity();
    File file = one_mesh(u8, octets({0, 1, 2, 3, 0, 1, 2, 3, 0, 1, 2, 3}), f32,
                         floats({1, nan, 0, 0, 1, -0.5F, nan, 0, 1, infinity, 0, 0}), 3);
    EXPECT_EQ(file.read(), "xx..");
    EXPECT_EQ(file.remarks, "broken: accessor 1 for weights has 3 vertices with a weight that is negative or not finite\n");
}

// 3.7.3.3: as many WEIGHTS_n as JOINTS_n; 3.7.2.1: all attributes of a primitive have the same count.
TEST(gltf_weights, are_unread_where_a_half_is_missing) {
    File file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    file.gltf.meshes[0].primitives[0].influences[0].weights = {};
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(file.remarks,
              "broken: JOINTS_0 of a primitive of mesh 0 is there without WEIGHTS_0\n"
              "unread: skin \"heron\": its weights cannot be read: JOINTS_0 of a primitive of mesh 0 is there without WEIGHTS_0, "
              "so all "
              "its 4 joints count as deform bones\n");
    file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    file.gltf.accessors[0].count = 2;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(file.remarks.substr(0, file.remarks.find('\n')),
              "broken: JOINTS_0 of a primitive of mesh 0 has 2 elements, its WEIGHTS_0 has 1");
    file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    const std::uint32_t more_joints = file.add_accessor(u8, 2);
    const std::uint32_t more_weights = file.add_accessor(f32, 2);
    file.gltf.meshes[0].primitives[0].influences.push_back({1, {more_joints, 0}, {more_weights, 0}});
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(file.remarks.substr(0, file.remarks.find('\n')),
              "broken: JOINTS_1 of a primitive of mesh 0 has 2 elements, its JOINTS_0 has 1");
}

TEST(gltf_weights, are_unread_where_they_are_of_another_type) {
    File file = one_mesh(u32, packed<std::uint32_t>({0, 0, 0, 0}), 5120, octets({1, 0, 0, 0}), 1);
    file.gltf.accessors[1].type = "SCALAR";
    EXPECT_EQ(file.read(), "xxxx?");
    for (const char* told : {"broken: accessor 0 for joints has component type 5125, wanted is 5121 or 5123\n",
                             "broken: accessor 1 for weights is of type \"SCALAR\", wanted is \"VEC4\"\n",
                             "broken: accessor 1 for weights has component type 5120, wanted is 5121, 5123 or 5126\n"})
        EXPECT_NE(file.remarks.find(told), std::string::npos) << told << file.remarks;
}

TEST(gltf_weights, are_unread_where_they_are_compressed) {
    File file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    file.gltf.views[1].is_compressed = true;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(
        file.remarks,
        "unread: skin \"heron\": its weights cannot be read: buffer view 1 is compressed by an extension, so all its 4 joints "
        "count as deform bones\n");
    file.gltf.meshes[0].primitives[0].is_compressed = true;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(
        file.remarks,
        "unread: skin \"heron\": its weights cannot be read: a primitive of mesh 0 is compressed by an extension, so all its 4 "
        "joints count as deform bones\n");
    file.gltf.meshes[0].primitives[0].influences.clear();  // geometry that no joint moves
    EXPECT_EQ(file.read(), "....");
}

TEST(gltf_weights, are_unread_where_an_index_is_wrong) {
    File file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    file.gltf.accessors[0].view.to = 9;
    file.gltf.views[1].buffer.to = 8;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_NE(file.remarks.find("broken: there is no buffer view 9, the file has 2\n"), std::string::npos) << file.remarks;
    EXPECT_NE(file.remarks.find("broken: there is no buffer 8, the file has 1\n"), std::string::npos) << file.remarks;
    file.gltf.meshes[0].primitives[0].influences[0].joints.to = 7;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_NE(file.remarks.find("broken: there is no accessor 7, the file has 2\n"), std::string::npos) << file.remarks;
}

// Numbers near 2^64, whose sums and products overflow to small ones.
TEST(gltf_weights, are_unread_where_lengths_lie) {
    const auto read_with = [](auto change) {
        File file = one_mesh(u8, octets({0, 0, 0, 0, 0, 0, 0, 0}), f32, floats({1, 0, 0, 0, 1, 0, 0, 0}), 2);
        EXPECT_EQ(file.read(), "x...");
        change(file.gltf);
        const std::string text = file.read();
        return file.remarks.find("does not fit into") == std::string::npos ? "told is " + file.remarks : text;
    };
    EXPECT_EQ(read_with([](Gltf& gltf) { gltf.views[1].offset = huge - 31; }), "xxxx?");  // offset + length = 0
    EXPECT_EQ(read_with([](Gltf& gltf) { gltf.views[1].length = huge; }), "xxxx?");
    EXPECT_EQ(read_with([](Gltf& gltf) { gltf.views[1].length = 33; }), "xxxx?");
    EXPECT_EQ(read_with([](Gltf& gltf) { gltf.accessors[1].offset = huge - 15; }), "xxxx?");
    EXPECT_EQ(read_with([](Gltf& gltf) { gltf.accessors[1].offset = 1; }), "xxxx?");
    EXPECT_EQ(read_with([](Gltf& gltf) { gltf.views[1].stride = huge; }), "xxxx?");
    EXPECT_EQ(read_with([](Gltf& gltf) { gltf.views[1].stride = 17; }), "xxxx?");
    // count * 16 = 0, and (count - 1) * 16 + 16 = 32
    for (const std::uint64_t count : {std::uint64_t{1} << 60U, (std::uint64_t{1} << 60U) + 2, huge})
        EXPECT_EQ(read_with([&](Gltf& gltf) { gltf.accessors[0].count = gltf.accessors[1].count = count; }), "xxxx?") << count;
    // Of a count that fits a stride: (2^63 + 1 - 1) * 2 = 0
    EXPECT_EQ(read_with([](Gltf& gltf) {
                  gltf.views[0].stride = gltf.views[1].stride = 2;
                  gltf.accessors[0].count = gltf.accessors[1].count = (std::uint64_t{1} << 63U) + 1;
              }),
              "xxxx?");
    EXPECT_EQ(read_with([](Gltf& gltf) {
                  gltf.accessors[1].sparse = GltfSparse{1, {0, 0}, {1, 0}, huge, huge - 15, u8};
              }),
              "xxxx?");
}

TEST(gltf_weights, are_unread_behind_the_end_of_a_short_buffer) {
    File file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    file.binary.pop_back();
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(file.remarks,
              "broken: buffer 0 has 19 bytes, its length says 20\n"
              "unread: skin \"heron\": its weights cannot be read: buffer view 1 (offset 4, 16 bytes) does not fit into the 19 "
              "bytes of "
              "buffer 0, so all its 4 joints count as deform bones\n");
    // What is not asked for may be missing; nor does what a view may not reach help.
    file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    file.gltf.buffers[0].length = 21;
    EXPECT_EQ(file.read(), "x...");
    EXPECT_EQ(file.remarks, "broken: buffer 0 has 20 bytes, its length says 21\n");
    file.gltf.buffers[0].length = 19;
    EXPECT_EQ(file.read(), "xxxx?");
}

TEST(gltf_weights, are_unread_without_their_buffer) {
    File file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    const std::string rest = ", so all its 4 joints count as deform bones\n";
    const auto remarks_of_uri = [&](const char* uri) {
        file.gltf.buffers[0].uri = uri;
        EXPECT_EQ(file.read(), "xxxx?");
        return file.remarks;
    };
    const std::string start = "unread: skin \"heron\": its weights cannot be read: ";
    EXPECT_EQ(remarks_of_uri("heron.bin"),
              start + "the URI \"heron.bin\" of buffer 0: there is no folder to look for it in" + rest);
    EXPECT_EQ(
        remarks_of_uri("https://marsh.example/heron.bin"),
        start +
            "the URI \"https://marsh.example/heron.bin\" of buffer 0: it has the scheme \"https\", read are relative URIs and "
            "\"data\" alone" +
            rest);
    EXPECT_EQ(remarks_of_uri("data:;base64,A"),
              "broken: the data URI of buffer 0: the length of base64 is a multiple of 4, this one has 1 characters\n" + start +
                  "the data URI of buffer 0: the length of base64 is a multiple of 4, this one has 1 characters" + rest);
    // 3.6.1.2: the BIN chunk is the first buffer, where that has no URI.
    file.gltf.buffers[0].uri.reset();
    file.gltf.buffers.insert(file.gltf.buffers.begin(), {0, "data:,", 1});
    for (GltfView& view : file.gltf.views) view.buffer.to = 1;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(file.remarks, start + "buffer 1 has no URI" + rest);
}

// Of a buffer that no weight needs nothing is told, as it is not read; files are read from the folder, one of two names once.
TEST(gltf_weights, are_read_from_data_uris_and_files) {
    File file = one_mesh(u8, octets({2, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    file.gltf.buffers.push_back({0, "../marsh.bin", 5});
    file.gltf.buffers[0].uri = "data:application/octet-stream;base64,AgAAAAAAgD8AAAAAAAAAAAAAAAA=";
    EXPECT_EQ(file.read(), "..x.");
    EXPECT_EQ(file.remarks, "");
    const auto folder = std::filesystem::temp_directory_path() / ("ligament_weights_" + std::to_string(::getpid()));
    std::filesystem::create_directory(folder);
    std::ofstream(folder / "heron.bin", std::ios::binary) << file.binary;
    file.folder = folder.string();
    file.gltf.buffers[0].uri = "heron.bin";
    file.gltf.buffers[1] = {0, "./heron.bin", 20};
    file.gltf.views[1].buffer.to = 1;
    EXPECT_EQ(file.read(), "..x.");
    EXPECT_EQ(file.remarks, "");
    file.options.file_limit = 19;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_NE(file.remarks.find("the URI \"heron.bin\" of buffer 0: it is larger than 19 bytes, the most that is read"),
              std::string::npos);
    std::filesystem::remove_all(folder);
}

TEST(gltf_weights, are_unread_for_each_skin_and_reason_once) {
    File file = one_mesh(u8, octets({0, 0, 0, 0}), f32, floats({1, 0, 0, 0}), 1);
    file.gltf.buffers[0].uri = "heron.bin";
    file.gltf.meshes[0].primitives.resize(5, file.gltf.meshes[0].primitives[0]);
    file.add_skin("", 1);
    file.add_node(0, 1);
    EXPECT_EQ(file.read(), "xxxx? x?");
    const std::string reason = "the URI \"heron.bin\" of buffer 0: there is no folder to look for it in";
    EXPECT_EQ(file.remarks, "unread: skin \"heron\": its weights cannot be read: " + reason +
                                ", so all its 4 joints count as deform bones\n"
                                "unread: skin 1: its weights cannot be read: " +
                                reason + ", so its one joint counts as a deform bone\n");
    Remarks remarks;
    find_weighted_joints({file.gltf, file.json, file.binary, file.folder, file.options}, remarks);
    ASSERT_EQ(remarks.size(), 2);
    EXPECT_EQ(remarks[0].bones, (std::vector<BoneId>{100, 101, 102, 103}));
    EXPECT_EQ(remarks[1].bones, (std::vector<BoneId>{100}));
}

TEST(gltf_weights, have_a_limit_to_the_reasons_that_are_told) {
    File file;
    for (int i = 0; i < 30; ++i) file.add_node(file.add_mesh({{0, {file.add_accessor(u8, 1), 0}, {}}}));
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_NE(file.remarks.find("unread: skin \"heron\": its weights cannot be read for 10 more reasons, listed are 20\n"),
              std::string::npos);
}

}  // namespace
}  // namespace ligament::testing
