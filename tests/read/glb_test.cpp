// Is a GLB container taken apart as glTF 2.0 (ISO/IEC 12113:2022) has it, section 4.4? (Magic, version, chunk types and the rules
// for order, alignment and unknown chunks are those of 4.4.2 and 4.4.3, from memory.)
#include "glb.hpp"

#include <gtest/gtest.h>

namespace ligament::testing {
namespace {

std::string number(std::uint64_t value) {
    std::string bytes;
    for (unsigned shift = 0; shift < 32; shift += 8) bytes += static_cast<char>(value >> shift & 255U);
    return bytes;
}

std::string chunk(std::string_view type, std::string_view data) {
    return number(data.size()) + std::string(type) + std::string(data);
}

std::string json(std::string_view data) { return chunk("JSON", data); }
std::string binary(std::string_view data) { return chunk({"BIN\0", 4}, data); }

std::string glb(const std::string& chunks, std::uint64_t version = 2) {
    return "glTF" + number(version) + number(12 + chunks.size()) + chunks;
}

struct Split {
    std::string json;
    std::optional<std::string> binary;
    std::string faults, remarks;  // a line each
};

Split split(std::string_view content) {
    Split split;
    FaultList faults;
    Remarks remarks;
    const GlbParts parts = split_glb(content, faults, remarks);
    split.json = parts.json;
    if (parts.binary) split.binary = *parts.binary;
    for (const Fault& fault : faults.take()) {
        EXPECT_EQ(fault.place, Place());
        split.faults += fault.message + "\n";
    }
    for (const Remark& remark : remarks) {
        EXPECT_EQ(remark.kind, Remark::Kind::standard_broken);
        split.remarks += remark.message + "\n";
    }
    return split;
}

TEST(glb, has_a_json_chunk_then_perhaps_a_binary_one) {
    const Split both = split(glb(json("{}  ") + binary("1234")));
    EXPECT_EQ(both.json, "{}  ");
    EXPECT_EQ(both.binary, "1234");
    EXPECT_EQ(both.faults + both.remarks, "");
    const Split alone = split(glb(json("{}  ")));
    EXPECT_EQ(alone.json, "{}  ");
    EXPECT_FALSE(alone.binary);
    EXPECT_EQ(alone.faults + alone.remarks, "");
}

// 4.4.3: "Client implementations MUST ignore chunks with unknown types" (from memory).
TEST(glb, skips_chunks_of_unknown_type) {
    const Split behind = split(glb(json("{}  ") + binary("1234") + chunk("mud!", "12345678")));
    EXPECT_EQ(behind.binary, "1234");
    EXPECT_EQ(behind.faults + behind.remarks, "");
    const Split between = split(glb(json("{}  ") + chunk("mud!", "12345678") + binary("1234")));
    EXPECT_EQ(between.binary, "1234");
    EXPECT_EQ(between.faults, "");
    EXPECT_EQ(between.remarks, "the BIN chunk of a GLB file is chunk 1, here it is chunk 2\n");
}

TEST(glb, takes_the_first_of_chunks_that_stand_twice) {
    const Split twice = split(glb(json("{}  ") + binary("1234") + binary("5678") + json("[]  ")));
    EXPECT_EQ(twice.json, "{}  ");
    EXPECT_EQ(twice.binary, "1234");
    EXPECT_EQ(twice.remarks, "chunk 2 (BIN) is not read, a GLB file has at most one BIN chunk, and so with 1 more\n");
}

TEST(glb, remarks_on_what_leaves_the_parts_clear) {
    EXPECT_EQ(split(glb(json("{}"))).remarks, "the length of chunk 0 (JSON), 2 bytes, is no multiple of 4\n");
    EXPECT_EQ(split(glb(json("{}"))).json, "{}");
    EXPECT_EQ(split(glb(json("{}  ")) + "more").remarks, "the GLB header states a length of 24 bytes, the file has 28 bytes\n");
    EXPECT_EQ(split(glb(json("{}  ") + "12345")).remarks,
              "behind the last chunk of the GLB file are 5 bytes, too few for another chunk\n");
}

TEST(glb, is_refused_in_another_version) {
    EXPECT_EQ(split(glb("", 1)).faults, "the GLB file has version 1, which holds glTF 1.0; read is version 2, glTF 2.0\n");
    EXPECT_EQ(split(glb(json("{}  "), 3)).faults, "the GLB file has version 3, read is version 2\n");
    EXPECT_EQ(split("gltf" + number(3) + number(12)).faults,
              "a GLB file begins with 0x46546C67, this one with 0x66746C67\nthe GLB file has version 3, read is version 2\n");
}

TEST(glb, is_refused_where_a_length_lies) {
    EXPECT_EQ(split("glTF" + number(2) + number(0xFFFFFFFF) + number(0xFFFFFFFC) + "JSON{}  ").faults,
              "the GLB header states a length of 4294967295 bytes, the file has 24 bytes\n"
              "chunk 0 (JSON) states a length of 4294967292 bytes, behind its header are 4 bytes\n");
    EXPECT_EQ(split("glTF" + number(2) + number(11) + json("{}  ")).faults,
              "the GLB header states a length of 11 bytes, it alone has 12 bytes\n");
    // Behind the length that the header states is nothing that belongs to the file.
    const std::string short_header = "glTF" + number(2) + number(24) + number(8) + "JSON{}      ";
    EXPECT_EQ(split(short_header).faults, "chunk 0 (JSON) states a length of 8 bytes, behind its header are 4 bytes\n");
}

TEST(glb, is_refused_without_a_json_chunk_at_first) {
    EXPECT_EQ(split(glb(binary("1234"))).faults,
              "the first chunk of a GLB file is of type 0x4E4F534A (JSON), here it is of type 0x004E4942\n");
    EXPECT_EQ(split(glb("")).faults,
              "a GLB file has a JSON chunk, whose header alone has 8 bytes; behind the header of this file are 0 bytes\n");
}

// Cut anywhere, a file is refused: either the header states more than there is, or there is no header.
TEST(glb, is_refused_wherever_it_is_cut) {
    const std::string whole = glb(json("{}  ") + binary("1234"));
    for (std::size_t size = 0; size < whole.size(); ++size)
        EXPECT_NE(split(std::string_view(whole).substr(0, size)).faults, "") << size << " bytes";
}

}  // namespace
}  // namespace ligament::testing
