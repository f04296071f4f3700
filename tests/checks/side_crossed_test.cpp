// Does `side-crossed` name two bones of opposite sides that need each other, and no others?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

const std::string sides = "'sides': [['_l', '_r']]";

std::string crossed(std::string_view bones, const std::string& rest = sides) { return found("side-crossed", bones, rest); }

const std::string hands = "{'name': 'hand_l', 'roles': ['control']}, {'name': 'hand_r', 'roles': ['control']}, ";

std::string reading(const std::string& name, const std::string& words) {
    return "{'name': '" + name + "', 'constraints': [{'name': 'follow', " + words + "}]}";
}

}  // namespace

// Common practice, no source: a limb is copied and renamed, and one constraint still reads the original.
TEST(CheckSideCrossed, NamesTheTwoBonesAndTheWay) {
    const Looked looked = look_at(hands + reading("arm_r", "'kind': 'transform', 'from': 'hand_l'"), sides);
    EXPECT_EQ(found("side-crossed", looked),
              "warning \"arm_r\" depends on \"hand_l\" of the other side (constraint arm_r/follow) [hand_l arm_r]\n");
    const Finding finding = first_found("side-crossed", looked);
    EXPECT_EQ(finding.maker, "arm_r/follow");
    EXPECT_EQ(finding.hint, "let it read \"hand_r\", or a bone in the middle");
    EXPECT_EQ(finding.place, looked.rig.bones[2].constraints[0].place);
}

TEST(CheckSideCrossed, GoesThroughPropertiesObjectsAndSolvers) {
    const std::string property =
        ", 'properties': [{'name': 'p', 'value': {'expression': 'x', 'inputs': {'x': {'bone': 'hand_l', "
        "'channel': 'rotation.x'}}}}], 'objects': [{'name': 'skin', 'follows': ['hand_l']}]";
    EXPECT_EQ(crossed(hands + "{'name': 'arm_r', 'channels': {'rotation.x': {'expression': 'p', 'inputs': {'p': {'property': "
                              "'p'}}}}}",
                      sides + property),
              "warning \"arm_r\" depends on \"hand_l\" of the other side (driver p + arm_r/rotation.x) [hand_l arm_r]\n");
    EXPECT_NE(crossed(hands + reading("arm_r", "'kind': 'position', 'from': {'object': 'skin'}"), sides + property), "");
    EXPECT_EQ(crossed(hands + "{'name': 'upper_r'}, {'name': 'lower_r', 'parent': 'upper_r', 'constraints': [{'name': 'reach', "
                              "'kind': 'ik', 'target': 'hand_l', 'chain': 2}]}"),
              "warning \"upper_r\" depends on \"hand_l\" of the other side (solver lower_r/reach) [hand_l upper_r]\n"
              "warning \"lower_r\" depends on \"hand_l\" of the other side (solver lower_r/reach) [hand_l lower_r]\n");
    EXPECT_NE(crossed(hands + "{'name': 'ring_l', 'parent': 'hand_r'}"), "");
}

TEST(CheckSideCrossed, OnePairOfBonesIsOneFinding) {
    EXPECT_EQ(crossed(hands + "{'name': 'arm_r', 'parent': 'hand_l', 'constraints': [{'kind': 'rotation', 'from': 'hand_l'}]}"),
              "warning \"arm_r\" depends on \"hand_l\" of the other side (parent arm_r) [hand_l arm_r]\n");
}

TEST(CheckSideCrossed, WhatGoesThroughTheMiddleIsNoCrossing) {
    EXPECT_EQ(crossed(hands + "{'name': 'chest', 'parent': 'hand_l'}, {'name': 'arm_r', 'parent': 'chest'}"), "");
    EXPECT_EQ(crossed(hands + reading("arm_r", "'kind': 'transform', 'from': 'hand_r'")), "");
    EXPECT_EQ(crossed(hands + reading("arm_r", "'kind': 'transform', 'from': 'hand_l', 'enabled': false")), "");
    EXPECT_EQ(crossed(hands + reading("arm_r", "'kind': 'transform', 'from': 'hand_l'"), ""), "") << "no sides are declared";
    EXPECT_EQ(crossed(hands + reading("arm_right", "'kind': 'transform', 'from': 'hand_l'")), "");
}

// Common practice, no source: springs of a cloak collide with both legs.
TEST(CheckSideCrossed, WhatStaysClearOfBothPartnersFollowsNeither) {
    const std::string custom = "'kind': 'custom', 'reads': ['position'], 'writes': ['rotation'], 'from': ";
    EXPECT_EQ(crossed(hands + reading("cloak_r", custom + "['hand_l', 'hand_r']")), "");
    EXPECT_NE(crossed(hands + reading("cloak_r", custom + "'hand_l'")), "");
    EXPECT_NE(crossed(hands + reading("cloak_r", "'kind': 'position', 'from': ['hand_l', 'hand_r']")), "");
}

TEST(CheckSideCrossed, OtherPairsOfTokensAreOtherSides) {
    EXPECT_EQ(crossed("{'name': 'leg_f'}, {'name': 'arm_r', 'parent': 'leg_f'}", "'sides': [['_l', '_r'], ['_b', '_f']]"), "");
}

}  // namespace ligament::testing
