// Do nodes and skins of a glTF file get names that are all different and stay the same? Source: glTF 2.0 (ISO/IEC 12113:2022),
// section 3.3 (names are optional and need not be unique). How they are made is our own.
#include "gltf_names.hpp"

#include <gtest/gtest.h>

#include <set>

#include "gltf_text.hpp"

namespace ligament::testing {
namespace {

using Names = std::vector<std::string>;

TEST(gltf_names, stay_where_only_one_has_them) {
    EXPECT_EQ(unique_names({"heron", "wing", "Wing"}, "node"), (Names{"heron", "wing", "Wing"}));
    EXPECT_EQ(unique_names({}, "node"), Names{});
}

TEST(gltf_names, are_made_of_the_index_where_they_are_missing_or_equal) {
    EXPECT_EQ(unique_names({"", "heron", ""}, "node"), (Names{"node#0", "heron", "node#2"}));
    EXPECT_EQ(unique_names({"toe", "heron", "toe", "toe"}, "node"), (Names{"toe#0", "heron", "toe#2", "toe#3"}));
    EXPECT_EQ(unique_names({""}, "skin"), Names{"skin#0"});
}

TEST(gltf_names, that_are_made_give_way_to_those_that_are_given) {
    EXPECT_EQ(unique_names({"", "node#0"}, "node"), (Names{"node#0#0", "node#0"}));
    EXPECT_EQ(unique_names({"", "node#0", "node#0#0"}, "node"), (Names{"node#0#0#0", "node#0", "node#0#0"}));
    EXPECT_EQ(unique_names({"toe", "toe", "toe#1"}, "node"), (Names{"toe#0", "toe#1#1", "toe#1"}));
    // Made names that would be equal to each other: "x#1" twice and "x" twice.
    const Names made = unique_names({"x", "x", "x#1", "x#1", "x#1#1", ""}, "x");
    EXPECT_EQ(std::set<std::string>(made.begin(), made.end()).size(), made.size());
    EXPECT_EQ(made[4], "x#1#1");
}

TEST(gltf_names, are_the_same_each_time) {
    const std::string text =
        "'nodes': [{}, {'name': 'toe'}, {'name': 'toe', 'children': [0]}, {'name': ''}], 'skins': [{'joints': [1]}, {'joints': "
        "[2], "
        "'name': 'heron'}, {'joints': [0]}]";
    const auto names = [&] {
        const Rig rig = gltf_rig(text);
        std::string all;
        for (const Bone& bone : rig.bones) all += bone.name + " ";
        for (const Object& object : rig.objects) all += object.name + " ";
        return all;
    };
    EXPECT_EQ(names(), "node#0 toe#1 toe#2 node#3 skin#0 heron skin#2 ");
    EXPECT_EQ(names(), names());
}

TEST(gltf_names, have_at_most_1000_characters) {
    const auto rig_of = [](std::size_t length) { return "'nodes': [{}, {'name': '" + std::string(length, 'x') + "'}]"; };
    EXPECT_EQ(gltf_faults(rig_of(1'000)), "");
    EXPECT_EQ(gltf_faults(rig_of(1'001)), "/nodes/1: name of 1001 characters, at most 1000 are taken\n");
    EXPECT_EQ(gltf_faults("'nodes': [{}], 'skins': [{'joints': [0], 'name': '" + std::string(1'001, 'x') + "'}]"),
              "/skins/0: name of 1001 characters, at most 1000 are taken\n");
}

// The name of the rig: that of the VRM (from memory: meta.name in 1.0, meta.title in 0.x), else that of the file.
TEST(gltf_names, of_rigs) {
    const auto name_of_rig = [](const char* rest, const char* path) {
        const ReadResult result = read_gltf(gltf_text(rest), path);
        return result.rig ? result.rig->name : "no rig";
    };
    EXPECT_EQ(name_of_rig("", "/marsh/grey heron.v2.gltf"), "grey heron.v2");
    EXPECT_EQ(name_of_rig("", "-"), "unnamed");
    EXPECT_EQ(name_of_rig("", ""), "unnamed");
    EXPECT_EQ(name_of_rig("'extensions': {'VRMC_vrm': {'meta': {'name': 'Adebar'}}}", "x.vrm"), "Adebar");
    EXPECT_EQ(name_of_rig("'extensions': {'VRM': {'meta': {'title': 'Adebar'}}}", "x.vrm"), "Adebar");
    EXPECT_EQ(name_of_rig("'extensions': {'VRM': {'meta': {'title': ''}}}", "x.vrm"), "x");
    EXPECT_EQ(name_of_rig("'extensions': {'VRM': {'meta': {'title': 'Adebar'}}}, 'extras': {'rig': {'name': 'heron'}}", "x.vrm"),
              "heron");
}

}  // namespace
}  // namespace ligament::testing
