// Does `constraint-leftover` name the copies that still carry the stack of what they were copied from?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string bone(const std::string& name, const std::string& constraints, const std::string& more = "") {
    return "{'name': '" + name + "', 'parent': 'ctl'" + more + ", 'constraints': [" + constraints + "]},\n";
}

const std::string ctl = "{'name': 'ctl', 'roles': ['control']}, {'name': 'hand', 'parent': 'ctl'},\n";
const std::string roll = "{'name': 'twist', 'kind': 'roll', 'from': 'hand'}";
const std::string both = roll + ", {'name': 'size', 'kind': 'scale', 'from': 'hand'}";
const std::string skin =
    "{'name': 'skin', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'arm'}]}";
const std::string bow = "{'name': 'bow', 'roles': ['deform'], 'parent': 'arm', 'curve': {'start': 'arm', 'end': 'handle'}}";

}  // namespace

// Common practice, no source: a bone that is duplicated keeps the constraints of the original; they have to be deleted.
TEST(CheckConstraintLeftover, NamesAHandleWithTheStackOfTheBoneThatItWasCopiedFrom) {
    const Looked looked = look_at(ctl + bone("arm", both) + bone("handle", both) + bow);
    EXPECT_EQ(
        found("constraint-leftover", looked),
        "warning \"handle\" feeds only curves as a handle, but carries the same stack (\"twist\", \"size\") as \"arm\": likely "
        "left from duplicating it [handle]\n");
    EXPECT_EQ(first_found("constraint-leftover", looked).place.line, 3U);
}

TEST(CheckConstraintLeftover, NamesABoneThatFeedsNothing) {
    EXPECT_EQ(
        found("constraint-leftover", ctl + bone("arm", roll) + bone("arm_copy", roll) + skin),
        "warning \"arm_copy\" feeds nothing, but carries the same stack (\"twist\") as \"arm\": likely left from duplicating it "
        "[arm_copy]\n");
}

TEST(CheckConstraintLeftover, TheOriginalMayBeADeformBoneThatFeedsNothing) {
    EXPECT_NE(found("constraint-leftover", ctl + bone("arm", roll, ", 'roles': ['deform']") +
                                               bone("copy", roll, ", 'roles': ['control']") + "{'name': 'tip', 'parent': 'arm'}"),
              "");
}

TEST(CheckConstraintLeftover, InertConstraintsDoNotCount) {
    EXPECT_NE(found("constraint-leftover",
                    ctl + bone("arm", roll) + bone("copy", "{'kind': 'scale', 'from': 'ctl', 'enabled': false}, " + roll) + skin),
              "");
    EXPECT_EQ(found("constraint-leftover",
                    ctl + bone("arm", roll) + bone("copy", "{'kind': 'roll', 'from': 'hand', 'weight': 0}") + skin),
              "");
}

TEST(CheckConstraintLeftover, NearMissTwoHandlesDoNotAccuseEachOther) {
    EXPECT_EQ(
        found("constraint-leftover", ctl + bone("start", roll) + bone("end", roll) +
                                         "{'name': 'bow', 'roles': ['deform'], 'parent': 'ctl', 'curve': {'start': 'start', "
                                         "'end': 'end'}}"),
        "");
}

TEST(CheckConstraintLeftover, NearMissADeformBoneMovesTheSkin) {
    EXPECT_EQ(found("constraint-leftover", ctl + bone("arm", roll) + bone("copy", roll, ", 'roles': ['deform']") + skin), "");
}

TEST(CheckConstraintLeftover, NearMissACopyThatFeedsSomethingElse) {
    EXPECT_EQ(found("constraint-leftover", ctl + bone("arm", roll) + bone("copy", roll) + skin,
                    "'objects': [{'name': 'reed', 'follows': ['copy']}]"),
              "");
}

TEST(CheckConstraintLeftover, NearMissAnotherStack) {
    EXPECT_EQ(found("constraint-leftover", ctl + bone("arm", both) + bone("copy", roll) + skin), "");
}

TEST(CheckConstraintLeftover, NearMissLimitsAloneSayNothing) {
    const std::string stops = "{'name': 'stops', 'kind': 'limit', 'channels': ['position.y'], 'range': [0, 1]}";
    EXPECT_EQ(found("constraint-leftover", ctl + bone("arm", stops) + bone("slider", stops, ", 'roles': ['control']") + skin),
              "");
}

TEST(CheckConstraintLeftover, CleanHandleWithoutConstraints) {
    EXPECT_EQ(found("constraint-leftover", ctl + bone("arm", both) + bone("handle", "") + bow), "");
}

}  // namespace ligament::testing
