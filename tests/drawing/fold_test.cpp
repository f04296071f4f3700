#include "fold.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "drawn.hpp"
#include "words.hpp"

namespace ligament {
namespace {

using testing::Judged;

/// "from -> to kind", a line each, with what is said of cycles and inertness.
std::string dump(const Judged& judged, const FoldedRig& folded) {
    std::string text;
    auto name = [&](std::uint32_t v) { return name_of(judged.rig, judged.dependencies, folded.vertices[v]); };
    for (const FoldedArrow& arrow : folded.arrows) {
        text += name(arrow.from) + " -> " + name(arrow.to) + " " + std::string(name_of(arrow.kind));
        if (arrow.makers.size() > 1) text += " x" + std::to_string(arrow.makers.size());
        if (arrow.inert) text += " inert";
        if (arrow.cycle) text += " cycle " + std::to_string(arrow.cycle);
        if (arrow.witness) text += " witness";
        text += "\n";
    }
    return text;
}

std::string folded(const Judged& judged) { return dump(judged, fold(judged.rig, judged.dependencies, judged.facts)); }

std::string names(const Judged& judged, const FoldedRig& part) {
    std::string text;
    for (const FoldedVertex& vertex : part.vertices)
        text += (text.empty() ? "" : " ") + name_of(judged.rig, judged.dependencies, vertex);
    return text;
}

FoldedRig keep_around(const FoldedRig& whole, BoneId around, unsigned hops) {
    const std::vector<bool> kept = find_around(whole, around, hops);
    std::vector<std::uint32_t> vertices, arrows(whole.arrows.size());
    for (std::uint32_t v = 0; v < kept.size(); ++v)
        if (kept[v]) vertices.push_back(v);
    std::iota(arrows.begin(), arrows.end(), 0u);
    return part_of(whole, vertices, arrows);
}

TEST(Fold, DriversBecomeArrows) {
    const Judged judged(
        "{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'rotation', 'from': 'a', 'weight': {'expression': 's', 'inputs': "
        "{'s': {'property': 'p'}}}}]},"
        "{'name': 'c', 'channels': {'rotation.x': {'expression': 'v', 'inputs': {'v': {'bone': 'b', 'channel': 'rotation.y'}}}}}",
        "'properties': [{'name': 'p'}, {'name': 'unused'}]");
    EXPECT_EQ(folded(judged),
              "a -> b constraint\n"
              "p -> b driver\n"
              "b -> c driver\n");
    const FoldedRig rig = fold(judged.rig, judged.dependencies, judged.facts);
    EXPECT_EQ(names(judged, rig), "a b c p");
    EXPECT_EQ(rig.unused_left_out, 1u);
}

TEST(Fold, AlikeArrowsBecomeOneThatCounts) {
    const Judged judged(
        "{'name': 'a'}, {'name': 'b', 'parent': 'a', 'constraints': [{'kind': 'rotation', 'from': 'a'}, {'kind': 'aim', 'from': "
        "'a'},"
        "{'kind': 'scale', 'from': 'a', 'enabled': false}]}");
    EXPECT_EQ(folded(judged),
              "a -> b parent\n"
              "a -> b constraint x2\n"
              "a -> b constraint inert\n");
}

TEST(Fold, CyclesGoThroughSolversAndProperties) {
    const Judged judged(
        "{'name': 'up'}, {'name': 'low', 'parent': 'up', 'constraints': [{'name': 'ik', 'kind': 'ik', 'target': 'foot', 'chain': "
        "2}]},"
        "{'name': 'foot', 'parent': 'low'}");
    EXPECT_EQ(folded(judged),
              "low/ik -> up solver cycle 1\n"
              "up -> low parent cycle 1\n"
              "low/ik -> low solver cycle 1 witness\n"
              "low -> foot parent cycle 1 witness\n"
              "foot -> low/ik solver cycle 1 witness\n");
}

TEST(Fold, InertArrowsAreInNoCycle) {
    const Judged judged(
        "{'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b', 'weight': 0}]}, {'name': 'b', 'parent': 'a'}");
    EXPECT_EQ(folded(judged),
              "b -> a constraint inert\n"
              "a -> b parent\n");
}

TEST(Fold, ALoopOfPropertiesIsMarked) {
    const Judged judged("{'name': 'a'}",
                        "'properties': [{'name': 'p', 'value': {'expression': 'q', 'inputs': {'q': {'property': 'q'}}}},"
                        "{'name': 'q', 'value': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}]");
    EXPECT_EQ(folded(judged),
              "q -> p driver cycle 1 witness\n"
              "p -> q driver cycle 1 witness\n");
}

TEST(Fold, AroundKeepsWhatIsNeededAndWhatIsMoved) {
    const Judged judged(
        "{'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b', 'constraints': [{'kind': 'aim', 'from': 'eye',"
        "'weight': {'expression': 's', 'inputs': {'s': {'property': 'p'}}}}]},"
        "{'name': 'd', 'parent': 'c'}, {'name': 'e', 'parent': 'd'}, {'name': 'eye'}, {'name': 'sibling', 'parent': 'b'}",
        "'properties': [{'name': 'p', 'on': 'e'}]");
    const FoldedRig whole = fold(judged.rig, judged.dependencies, judged.facts);
    auto around = [&](const char* bone, unsigned hops) {
        return names(judged, keep_around(whole, find_bone(judged.rig, bone), hops));
    };
    EXPECT_EQ(around("c", 0), "c");
    EXPECT_EQ(around("c", 1), "b c d eye p");  // the property counts no hop
    EXPECT_EQ(around("c", 2), "a b c d e eye p");
    EXPECT_EQ(around("d", 1), "c d e");  // the property is beyond c
    EXPECT_EQ(around("eye", 9), "c d e eye");
    EXPECT_EQ(keep_around(whole, 2, 1).bones_kept, 4u);
    EXPECT_EQ(keep_around(whole, 2, 1).bones, 7u);
}

TEST(Fold, AroundGoesAlongInertArrowsToo) {
    const Judged judged("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'transform', 'from': 'a', 'enabled': false}]}");
    const FoldedRig whole = fold(judged.rig, judged.dependencies, judged.facts);
    EXPECT_EQ(names(judged, keep_around(whole, 1, 1)), "a b");
}

}  // namespace
}  // namespace ligament
