// Does `constraint-dead` name the constraints of which nothing ever comes, and only those?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string on_bone(const std::string& constraints) {
    return "{'name': 'ctl', 'roles': ['control']}, {'name': 'mech', 'parent': 'ctl'}, {'name': 'd', 'roles': ['deform'], "
           "'constraints': [" +
           constraints + "]}";
}

const std::string seat = "{'name': 'seat', 'kind': 'transform', 'from': 'mech'}";
const std::string by_mode = "'weight': {'expression': 's', 'inputs': {'s': {'property': 'mode'}}}";

}  // namespace

TEST(CheckConstraintDead, NamesDisabledOnesAndThoseOfWeightZero) {
    EXPECT_EQ(found("constraint-dead", on_bone("{'name': 'old', 'kind': 'rotation', 'from': 'ctl', 'enabled': false}, "
                                               "{'name': 'none', 'kind': 'rotation', 'from': 'ctl', 'weight': 0}, " +
                                               seat)),
              "warning constraint \"d/old\" is disabled [d]\nwarning constraint \"d/none\" has the weight 0 [d]\n");
}

TEST(CheckConstraintDead, NamesWhatALaterStepAlwaysReplaces) {
    EXPECT_EQ(found("constraint-dead", on_bone("{'name': 'turn', 'kind': 'rotation', 'from': 'ctl'}, " + seat)),
              "warning constraint \"d/turn\" never gets through: later steps replace all that it writes, in the one state "
              "that there is [d]\n");
}

TEST(CheckConstraintDead, IsSilentWhereASwitchLetsItThrough) {
    EXPECT_EQ(
        found("constraint-dead",
              on_bone("{'name': 'ik', 'kind': 'transform', 'from': 'mech'}, {'name': 'fk', 'kind': 'transform', 'from': 'ctl', " +
                      by_mode + "}"),
              "'properties': [{'name': 'mode'}]"),
        "");
}

TEST(CheckConstraintDead, CountsTheStatesWhereNoSwitchDoes) {
    EXPECT_EQ(found("constraint-dead", on_bone("{'name': 'ik', 'kind': 'rotation', 'from': 'ctl', " + by_mode + "}, " + seat),
                    "'properties': [{'name': 'mode'}]"),
              "warning constraint \"d/ik\" never gets through: later steps replace all that it writes, in all 3 states looked "
              "at [d]\n");
}

TEST(CheckConstraintDead, TellsAWeightThatNoStopLiftsFromZero) {
    EXPECT_EQ(
        found("constraint-dead",
              on_bone("{'name': 'lean', 'kind': 'rotation', 'from': 'ctl', 'weight': {'expression': 'min(0, s)', 'inputs': {'s': "
                      "{'property': 'mode'}}}}"),
              "'properties': [{'name': 'mode'}]"),
        "warning constraint \"d/lean\" has the weight 0 in all 3 states looked at [d]\n");
}

TEST(CheckConstraintDead, ACombinationCanKeepItAlive) {
    EXPECT_EQ(
        found("constraint-dead",
              on_bone("{'name': 'lean', 'kind': 'rotation', 'from': 'ctl', 'weight': {'expression': 'a * b', 'inputs': {'a': "
                      "{'property': 'p'}, 'b': {'property': 'q'}}}}"),
              "'properties': [{'name': 'p'}, {'name': 'q'}]"),
        "");
}

TEST(CheckConstraintDead, PartOfWhatItWritesIsEnough) {
    EXPECT_EQ(found("constraint-dead", on_bone(seat + ", {'name': 'turn', 'kind': 'rotation', 'from': 'ctl'}")), "");
}

TEST(CheckConstraintDead, WhatAnotherBoneReadsBeforeItIsReplacedIsAlive) {
    const std::string bones =
        "{'name': 'ctl', 'roles': ['control']}, {'name': 'mech', 'parent': 'ctl', 'constraints': ["
        "{'name': 'turn', 'kind': 'rotation', 'from': 'ctl', 'space': 'local'}, {'name': 'seat', 'kind': 'transform', 'from': "
        "'ctl'}]}";
    EXPECT_NE(found("constraint-dead", bones), "");
    EXPECT_EQ(
        found("constraint-dead", bones + ", {'name': 'twist', 'constraints': [{'kind': 'rotation', 'from': 'mech', 'space': "
                                         "'local'}]}"),
        "");
}

TEST(CheckConstraintDead, WhatASwitchLetsAnotherBoneReadIsAlive) {
    EXPECT_EQ(found("constraint-dead",
                    "{'name': 'ctl', 'roles': ['control']}, {'name': 'mech', 'constraints': ["
                    "{'name': 'turn', 'kind': 'rotation', 'from': 'ctl', 'space': 'local'}, {'name': 'seat', 'kind': "
                    "'transform', 'from': "
                    "'ctl'}]}, {'name': 'twist', 'constraints': [{'kind': 'rotation', 'from': 'mech', 'space': 'local', " +
                        by_mode + "}]}",
                    "'properties': [{'name': 'mode'}]"),
              "");
}

TEST(CheckConstraintDead, ASolverIsAliveThroughAnyBoneOfItsChain) {
    const auto chain = [](const std::string& upper) {
        return "{'name': 'ctl', 'roles': ['control']}, {'name': 'upper', 'constraints': [" + upper +
               "]}, {'name': 'lower', 'parent': 'upper', 'constraints': [{'name': 'reach', 'kind': 'ik', 'target': 'ctl', "
               "'chain': 2}, "
               "{'name': 'seat', 'kind': 'transform', 'from': 'ctl'}]}";
    };
    EXPECT_EQ(found("constraint-dead", chain("")), "");
    EXPECT_NE(found("constraint-dead", chain("{'name': 'seat', 'kind': 'transform', 'from': 'ctl'}")), "");
}

}  // namespace ligament::testing
