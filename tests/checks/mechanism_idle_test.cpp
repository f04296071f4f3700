// Does `mechanism-idle` name the mechanism bones that no skin needs?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string found_beside(const std::string& bones, const std::string& rest = "") {
    return found("mechanism-idle",
                 "{'name': 'ctl', 'roles': ['control']}, {'name': 'skin', 'roles': ['deform'], 'parent': 'ctl'}, " + bones, rest);
}

std::string skin_by(const std::string& constraint) {
    return "{'name': 'd', 'roles': ['deform'], 'constraints': [" + constraint + "]}";
}

}  // namespace

TEST(CheckMechanismIdle, NamesWhatFeedsNothing) {
    EXPECT_EQ(found_beside("{'name': 'm', 'parent': 'ctl'}, {'name': 'n', 'parent': 'm'}"),
              "warning mechanism bone \"m\" feeds no deform bone and no object [m]\n"
              "warning mechanism bone \"n\" feeds no deform bone and no object [n]\n");
}

TEST(CheckMechanismIdle, FeedingControlsThatFeedNothingIsNotEnough) {
    EXPECT_NE(found_beside("{'name': 'm'}, {'name': 'c', 'roles': ['control'], 'parent': 'm'}"), "");
}

TEST(CheckMechanismIdle, WhatIsSwitchedOffForGoodIsNoWay) {
    EXPECT_NE(found_beside("{'name': 'm'}, " + skin_by("{'kind': 'rotation', 'from': 'm', 'weight': 0}")), "");
}

TEST(CheckMechanismIdle, NearMissesEachWayToTheSkin) {
    EXPECT_EQ(found_beside("{'name': 'm'}, {'name': 'd', 'roles': ['deform'], 'parent': 'm'}"), "");
    EXPECT_EQ(found_beside("{'name': 'm'}, {'name': 'n', 'parent': 'm'}, " + skin_by("{'kind': 'rotation', 'from': 'n'}")), "");
    EXPECT_EQ(found_beside("{'name': 'm'}, {'name': 'd', 'roles': ['deform'], 'curve': {'end': 'm'}}"), "");
    EXPECT_EQ(found_beside("{'name': 'm'}, " + skin_by("{'kind': 'ik', 'target': 'ctl', 'pole': 'm', 'chain': 1}")), "");
    EXPECT_EQ(
        found_beside("{'name': 'm'}, {'name': 'd', 'roles': ['deform'], 'channels': {'scale.x': {'expression': 'w', 'inputs': "
                     "{'w': {'property': 'p'}}}}}",
                     "'properties': [{'name': 'p', 'value': {'expression': 'x', 'inputs': {'x': {'bone': 'm', 'channel': "
                     "'position.x'}}}}]"),
        "");
    EXPECT_EQ(found_beside("{'name': 'm'}, " +
                           skin_by("{'kind': 'rotation', 'from': 'ctl', 'weight': {'expression': 'x', 'inputs': {'x': "
                                   "{'bone': 'm', 'channel': 'rotation.x'}}}}")),
              "");
}

TEST(CheckMechanismIdle, NearMissAnObject) {
    EXPECT_EQ(found_beside("{'name': 'm'}, {'name': 'n', 'parent': 'm'}", "'objects': [{'name': 'reed', 'follows': ['n']}]"), "");
}

TEST(CheckMechanismIdle, NearMissTheBoneThatCarriesASolverForOthers) {
    const std::string limb =
        "{'name': 'upper', 'parent': 'ctl'}, {'name': 'lower', 'parent': 'upper', 'constraints': [{'kind': 'ik', "
        "'target': 'ctl', 'chain': 2}]}";
    EXPECT_EQ(found_beside(limb + ", " + skin_by("{'kind': 'transform', 'from': 'upper'}")), "");
    EXPECT_NE(found_beside(limb), "");
}

TEST(CheckMechanismIdle, NearMissARoleThatWasMadeOutFromWeights) {
    Rig rig = tiny_rig("{'name': 'm'}");
    EXPECT_NE(found("mechanism-idle", look_at(rig)), "");
    rig.bones[0].role_is_stated = false;
    EXPECT_EQ(found("mechanism-idle", look_at(rig)), "");
}

}  // namespace ligament::testing
