// Are the joints found that vertices are weighted to? Source: glTF 2.0 (ISO/IEC 12113:2022), sections 3.6 (buffers, views,
// accessors, sparse ones) and 3.7.3 (skins), from memory; the section that a check rests on stands beside it.
#include "gltf_file.hpp"

namespace ligament::testing {
namespace {

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
    EXPECT_EQ(file.remarks,
              "broken: buffer view 1 of 27 bytes is too small for accessor 1 (offset 8, 3 elements of 4 bytes, 8 apart)\n"
              "unread: skin \"heron\": its weights cannot be read: buffer view 1 of 27 bytes is too small for accessor 1 (offset "
              "8, 3 elements "
              "of 4 bytes, 8 apart), so all its 4 joints count as deform bones\n");
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
    // Both for the same vertex, and plain ones behind it.
    file.set_sparse(0, u8, 1, octets({1}), octets({2, 0, 0, 3}));
    file.set_sparse(1, u8, 1, octets({1}), floats({0, 0, 0, 1}));
    EXPECT_EQ(file.read(), "x..x");
    EXPECT_EQ(file.remarks, "");
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

// Numbers near 2^64, whose sums and products overflow to small ones.

// Of a buffer that no weight needs nothing is told, as it is not read; files are read from the folder, one of two names once.

}  // namespace
}  // namespace ligament::testing
