// Does `chain-interrupted` name the constraints on bones inside a solver's chain?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string by_mode(const std::string& expression, const std::string& property = "mode") {
    return ", 'weight': {'expression': '" + expression + "', 'inputs': {'m': {'property': '" + property + "'}}}";
}

std::string found_in_leg(const std::string& thigh, const std::string& shin = "", const std::string& solver = "") {
    return found("chain-interrupted",
                 "{'name': 'ctl', 'roles': ['control']}, {'name': 'hip', 'parent': 'ctl'}, {'name': 'thigh', 'parent': 'hip', "
                 "'constraints': [" +
                     thigh +
                     "]}, {'name': 'shin', 'parent': 'thigh', 'constraints': [{'name': 'reach', 'kind': 'ik', 'target': 'ctl', "
                     "'chain': 2" +
                     solver + "}" + shin + "]}",
                 "'properties': [{'name': 'mode'}, {'name': 'other'}]");
}

std::string turn(const std::string& more = "") { return "{'name': 'turn', 'kind': 'rotation', 'from': 'ctl'" + more + "}"; }

const std::string on_thigh =
    "warning constraint \"thigh/turn\" writes the rotation of \"thigh\", which is in the chain of solver \"shin/reach\" "
    "[thigh]\n";

}  // namespace

TEST(CheckChainInterrupted, NamesConstraintAndSolver) { EXPECT_EQ(found_in_leg(turn()), on_thigh); }

TEST(CheckChainInterrupted, CountsTheOwnerAndPositions) {
    EXPECT_EQ(
        found_in_leg(
            "", ", {'name': 'seat', 'kind': 'transform', 'from': 'ctl'}, {'name': 'stay', 'kind': 'distance', 'from': 'ctl'}"),
        "warning constraint \"shin/seat\" writes the position and rotation of \"shin\", which is in the chain of solver "
        "\"shin/reach\" [shin]\n"
        "warning constraint \"shin/stay\" writes the position of \"shin\", which is in the chain of solver \"shin/reach\" "
        "[shin]\n");
}

TEST(CheckChainInterrupted, StandsAtTheConstraint) {
    const Finding finding =
        first_found("chain-interrupted",
                    look_at("{'name': 'ctl', 'roles': ['control']}, {'name': 'shin', 'constraints': [{'kind': 'ik', 'target': "
                            "'ctl', 'chain': 1},\n {'name': 'turn', 'kind': 'rotation', 'from': 'ctl'}]}"));
    EXPECT_EQ(finding.place, (Place{2, 2}));
    EXPECT_EQ(finding.maker, "shin/turn");
}

TEST(CheckChainInterrupted, NearMissScaleAlone) { EXPECT_EQ(found_in_leg("{'kind': 'scale', 'from': 'ctl'}"), ""); }

TEST(CheckChainInterrupted, NearMissInertOnes) {
    EXPECT_EQ(found_in_leg(turn(", 'enabled': false")), "");
    EXPECT_EQ(found_in_leg(turn(), "", ", 'weight': 0"), "");
}

TEST(CheckChainInterrupted, NearMissAnotherSolver) {
    EXPECT_EQ(found_in_leg("{'name': 'swing', 'kind': 'ik', 'target': 'ctl', 'chain': 1}"), "");
}

TEST(CheckChainInterrupted, NearMissTakingTurnsByASwitch) {
    EXPECT_EQ(found_in_leg(turn(by_mode("m")), "", by_mode("1 - m")), "");
    EXPECT_EQ(found_in_leg(turn(by_mode("m > 0.5")), "", by_mode("m < 0.5")), "");
}

TEST(CheckChainInterrupted, WorkingTogetherAtAStopInterrupts) {
    EXPECT_EQ(found_in_leg(turn(by_mode("m")), "", by_mode("m")), on_thigh);
    EXPECT_EQ(found_in_leg(turn(by_mode("m")), "", by_mode("m", "other")), on_thigh);  // both switches set
    EXPECT_EQ(found_in_leg(turn(by_mode("m"))), on_thigh);                             // the solver is always on
}

TEST(CheckChainInterrupted, NearMissBonesBeforeAndBehindTheChain) {
    EXPECT_EQ(
        found("chain-interrupted",
              "{'name': 'ctl', 'roles': ['control']}, {'name': 'hip', 'constraints': [{'kind': 'rotation', 'from': 'ctl'}]}, "
              "{'name': 'thigh', 'parent': 'hip'}, {'name': 'shin', 'parent': 'thigh', 'constraints': [{'kind': 'ik', 'target': "
              "'ctl', 'chain': 2}]}, {'name': 'foot', 'parent': 'shin', 'constraints': [{'kind': 'rotation', 'from': 'ctl'}]}"),
        "");
}

TEST(CheckChainInterrupted, CleanChain) { EXPECT_EQ(found_in_leg(""), ""); }

}  // namespace ligament::testing
