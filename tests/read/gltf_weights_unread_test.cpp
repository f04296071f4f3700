// Is it said why weights cannot be read, and do all joints count then? Source: glTF 2.0 (ISO/IEC 12113:2022), sections 3.6
// (buffers, views, accessors, sparse ones) and 3.7.3 (skins), from memory; the section that a check rests on stands beside it.
#include "gltf_file.hpp"

#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace ligament::testing {
namespace {

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
        "broken: buffer view 2 of 2 bytes is too small for the sparse indices of accessor 1 (offset 0, 2 elements of 2 bytes, 2 "
        "apart)");
}

TEST(gltf_weights, are_unread_past_a_bound) {
    File file = one_mesh(u8, octets({0, 0, 0, 0, 0, 0, 0, 0}), f32, floats({1, 0, 0, 0, 1, 0, 0, 0}), 2);
    file.options.influence_limit = 1;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_NE(file.remarks.find("the file has more than 1 influences, the most that are read"), std::string::npos)
        << file.remarks;
    EXPECT_EQ(ReadOptions{}.influence_limit, 268'435'456U);  // as the README says
}

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

TEST(gltf_weights, are_unread_where_lengths_lie) {
    const auto read_with = [](auto change) {
        File file = one_mesh(u8, octets({0, 0, 0, 0, 0, 0, 0, 0}), f32, floats({1, 0, 0, 0, 1, 0, 0, 0}), 2);
        EXPECT_EQ(file.read(), "x...");
        change(file.gltf);
        const std::string text = file.read();
        return file.remarks.find("is too small for") == std::string::npos ? "told is " + file.remarks : text;
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
              "unread: skin \"heron\": its weights cannot be read: buffer 0 of 19 bytes is too small for buffer "
              "view 1 (offset 4, 16 bytes), so all its 4 joints count as deform bones\n");
    // What no weight needs may be missing; what is there may not be used past the stated length.
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
              "broken: the data URI of buffer 0: base64 has a multiple of 4 characters, this one 1\n" + start +
                  "the data URI of buffer 0: base64 has a multiple of 4 characters, this one 1" + rest);
    // 3.6.1.2: the BIN chunk is the first buffer, where that has no URI.
    file.gltf.buffers[0].uri.reset();
    file.gltf.buffers.insert(file.gltf.buffers.begin(), {0, "data:,", 1});
    for (GltfView& view : file.gltf.views) view.buffer.to = 1;
    EXPECT_EQ(file.read(), "xxxx?");
    EXPECT_EQ(file.remarks, start + "buffer 1 has no URI" + rest);
}

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
