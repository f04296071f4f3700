// Is an input told to be glTF or a rig description? Sources: glTF 2.0 (ISO/IEC 12113:2022), sections 1.3 (file endings), 3.2
// ("asset" is required) and 4.4 (a GLB begins with the magic "glTF"); the ending .vrm from memory.
#include "recognise.hpp"

#include <gtest/gtest.h>

namespace ligament::testing {
namespace {

bool is_gltf_text(std::string_view content) { return is_gltf({"-", content}); }

TEST(recognise, by_ending) {
    for (const char* path : {"heron.gltf", "heron.glb", "heron.vrm", "HERON.GLTF", "a/b.c/heron.Glb", "heron.rig.json.VRM"})
        EXPECT_TRUE(is_gltf({path, "{\"format\": \"rig-description\"}"})) << path;
    for (const char* path : {"heron.json", "gltf", "heron.gltf.json", "heron.gltf2", "", "-"})
        EXPECT_FALSE(is_gltf({path, "{\"format\": \"rig-description\"}"})) << path;
}

TEST(recognise, by_the_first_bytes_of_a_glb) {
    EXPECT_TRUE(is_gltf_text("glTF"));
    EXPECT_TRUE(is_gltf({"heron.rig.json", "glTF\x02"}));  // no text begins so
    EXPECT_FALSE(is_gltf_text("glT"));
    EXPECT_FALSE(is_gltf_text("GLTF"));
}

TEST(recognise, by_the_key_of_every_gltf) {
    EXPECT_TRUE(is_gltf_text("{\"asset\": {\"version\": \"2.0\"}}"));
    EXPECT_TRUE(is_gltf_text("\xEF\xBB\xBF { \"nodes\": [{\"name\": \"}]\\\"{\"}], \"asset\" \n: {"));  // broken off behind it
    EXPECT_FALSE(is_gltf_text(""));
    EXPECT_FALSE(is_gltf_text("{\"bones\": []}"));
    EXPECT_FALSE(is_gltf_text("{\"assets\": {}, \"Asset\": {}}"));
    EXPECT_FALSE(is_gltf_text("{\"extras\": {\"asset\": {}}, \"bones\": []}"));  // further in
    EXPECT_FALSE(is_gltf_text("[\"asset\", {\"b\": 1}]"));
}

TEST(recognise, not_by_strings_that_hold_the_key) {
    EXPECT_FALSE(is_gltf_text("{\"name\": \"asset\", \"bones\": []}"));
    EXPECT_FALSE(is_gltf_text("{\"name\": \"\\\"asset\\\": {\", \"bones\": []}"));
    EXPECT_FALSE(is_gltf_text("{\"name\": \"\\\\\", \"x\": \"asset\"}"));
    EXPECT_FALSE(is_gltf_text("{\"name\": \"\\"));
    EXPECT_FALSE(is_gltf_text("{\"asset"));
}

TEST(recognise, rig_descriptions_first) {
    constexpr const char* asset = "{\"asset\": {\"version\": \"2.0\"}}";
    EXPECT_FALSE(is_gltf({"heron.rig.json", asset}));
    EXPECT_FALSE(is_gltf({"HERON.RIG.JSON", asset}));
    EXPECT_TRUE(is_gltf({"heron.json", asset}));
    EXPECT_FALSE(is_gltf_text("{ \"format\": \"rig-description\", \"asset\": 1}"));
}

TEST(recognise, the_reader_of_the_format) {
    EXPECT_TRUE(all_formats()[0].recognises({"-", "{\"asset\": {}}"}));
    EXPECT_EQ(all_formats()[0]
                  .read({"-", "{\"asset\": {\"version\": \"2.0\"}, \"nodes\": [{\"name\": \"heron\"}]}"}, {})
                  .rig->bones[0]
                  .name,
              "heron");
}

}  // namespace
}  // namespace ligament::testing
