// Which bone needs which, straight or through what is no bone?
#include <gtest/gtest.h>

#include "ligament/links.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

std::string links_of(const Rig& rig, const std::vector<FoldedEdge>& links, const Dependencies& dependencies) {
    std::string text;
    for (const FoldedEdge& link : links) {
        text += rig.bones[link.from].name + ">" + rig.bones[link.to].name + " " + name_of(rig, dependencies, link.maker);
        for (MakerId maker : link.through) text += " " + name_of(rig, dependencies, maker);
        text += "\n";
    }
    return text;
}

std::string links_of(std::string_view bones, std::string_view rest = {}) {
    const Rig rig = tiny_rig(bones, rest);
    const Dependencies dependencies = build_dependencies(rig);
    return links_of(rig, find_links(rig, dependencies), dependencies);
}

}  // namespace

TEST(Links, AreStraightOrThroughWhatIsNoBone) {
    EXPECT_EQ(
        links_of(
            "{'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'constraints': [{'kind': 'transform', 'from': 'b'}]}"),
        "a>b b\nb>c c/transform1\n");
    EXPECT_EQ(links_of("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'surface', 'from': {'object': 'skin'}}]}",
                       "'objects': [{'name': 'skin', 'follows': ['a']}]"),
              "a>b skin b/surface1\n");
    EXPECT_EQ(
        links_of(
            "{'name': 'a'}, {'name': 'b', 'channels': {'rotation.x': {'expression': 'p', 'inputs': {'p': {'property': 'q'}}}}}",
            "'properties': [{'name': 'q', 'value': {'expression': 'r', 'inputs': {'r': {'bone': 'a', 'channel': "
            "'rotation.x'}}}}]"),
        "a>b q b/rotation.x\n");
}

TEST(Links, PassNoBoneAndNothingInert) {
    EXPECT_EQ(links_of("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'transform', 'from': 'a', 'enabled': false}]}"),
              "");
}

TEST(Links, OfChosenBonesAloneArePartOfAll) {
    const Rig rig = tiny_rig(
        "{'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'a', 'constraints': [{'kind': 'transform', 'from': "
        "'b'}]}");
    const Dependencies dependencies = build_dependencies(rig);
    EXPECT_EQ(links_of(rig, find_links(rig, dependencies, {true, true, true}, {false, false, true}), dependencies),
              "a>c c\nb>c c/transform1\n");
    EXPECT_EQ(links_of(rig, find_links(rig, dependencies, {false, true, false}, {true, true, true}), dependencies),
              "b>c c/transform1\n");
    EXPECT_EQ(links_of(rig, find_links(rig, dependencies, {true, true, true}, {false, false, false}), dependencies), "");
}

}  // namespace ligament::testing
