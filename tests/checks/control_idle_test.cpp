// Does `control-idle` name the controls that move nothing?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

const std::string idle = "warning control \"ctl\" moves nothing: its pose reaches no other bone and no object [ctl]\n";
const std::string idle_with_property =
    "warning control \"ctl\" moves nothing: neither its pose nor a property on it reaches another bone or an object [ctl]\n";

std::string found_beside(const std::string& bones, const std::string& rest = "", const std::string& of_control = "") {
    return found("control-idle",
                 "{'name': 'body', 'roles': ['deform', 'control']}, {'name': 'ctl', 'roles': ['control'], 'parent': 'body'" +
                     of_control + "}" + (bones.empty() ? "" : ", " + bones),
                 rest);
}

std::string driven_by(const std::string& input) { return "{'expression': 'x', 'inputs': {'x': " + input + "}}"; }

const std::string blink = driven_by("{'property': 'blink'}");
const std::string with_blink = "'properties': [{'name': 'blink', 'on': 'ctl'}]";

}  // namespace

TEST(CheckControlIdle, NamesAControlThatNothingReads) {
    EXPECT_EQ(found_beside(""), idle);
    EXPECT_EQ(found_beside("", with_blink), idle_with_property);
}

TEST(CheckControlIdle, WhatIsSwitchedOffForGoodDoesNotRead) {
    EXPECT_EQ(found_beside("{'name': 'm', 'constraints': [{'kind': 'rotation', 'from': 'ctl', 'enabled': false}]}"), idle);
    EXPECT_EQ(found_beside("{'name': 'm', 'constraints': [{'kind': 'rotation', 'from': {'bone': 'ctl', 'weight': 0}}]}"), idle);
}

TEST(CheckControlIdle, WhatAPropertyDoesToItsOwnBoneDoesNotCount) {
    EXPECT_EQ(found_beside("", with_blink, ", 'channels': {'rotation.x': " + blink + "}"), idle_with_property);
    EXPECT_EQ(found_beside("", with_blink, ", 'constraints': [{'kind': 'rotation', 'from': 'body', 'weight': " + blink + "}]"),
              idle_with_property);
}

TEST(CheckControlIdle, NorDoesADriverFromItsOwnChannel) {
    EXPECT_EQ(found_beside("", "", ", 'channels': {'rotation.x': " + driven_by("{'bone': 'ctl', 'channel': 'position.x'}") + "}"),
              idle);
}

TEST(CheckControlIdle, NearMissASlider) {
    EXPECT_EQ(
        found_beside("{'name': 'm', 'channels': {'rotation.x': " + driven_by("{'bone': 'ctl', 'channel': 'position.y'}") + "}}"),
        "");
    EXPECT_EQ(found_beside("{'name': 'm', 'channels': {'rotation.x': " + blink + "}}", with_blink), "");
    EXPECT_EQ(
        found_beside("{'name': 'm', 'constraints': [{'kind': 'rotation', 'from': 'body', 'weight': " + blink + "}]}", with_blink),
        "");
}

TEST(CheckControlIdle, NearMissThroughOtherProperties) {
    EXPECT_EQ(found_beside("{'name': 'm', 'channels': {'rotation.x': " + driven_by("{'property': 'shut'}") + "}}",
                           "'properties': [{'name': 'blink', 'on': 'ctl'}, {'name': 'shut', 'value': " + blink + "}]"),
              "");
    EXPECT_EQ(found_beside("", "'properties': [{'name': 'blink', 'on': 'ctl'}, {'name': 'shut', 'value': " + blink + "}]"),
              idle_with_property);
}

TEST(CheckControlIdle, NearMissAnObject) { EXPECT_EQ(found_beside("", "'objects': [{'name': 'reed', 'follows': ['ctl']}]"), ""); }

TEST(CheckControlIdle, NearMissTheEndOfAChain) {
    EXPECT_EQ(found_beside("", "", ", 'constraints': [{'kind': 'ik', 'target': 'body', 'chain': 1}]"), idle);
    EXPECT_EQ(found("control-idle",
                    "{'name': 'goal', 'roles': ['control']}, {'name': 'upper', 'roles': ['control']}, {'name': 'ctl', "
                    "'roles': ['control'], 'parent': 'upper', 'constraints': [{'kind': 'ik', 'target': 'goal', 'chain': 2}]}"),
              "");
}

TEST(CheckControlIdle, NearMissOtherRoles) {
    EXPECT_EQ(found("control-idle",
                    "{'name': 'both', 'roles': ['control', 'deform']}, {'name': 'mech'}, {'name': 'd', 'roles': ['deform']}"),
              "");
}

TEST(CheckControlIdle, NearMissARoleThatWasMadeOutFromWeights) {
    Rig rig = tiny_rig("{'name': 'ctl', 'roles': ['control']}");
    EXPECT_EQ(found("control-idle", look_at(rig)), idle);
    rig.bones[0].role_is_stated = false;
    EXPECT_EQ(found("control-idle", look_at(rig)), "");
}

TEST(CheckControlIdle, CleanWithAChild) { EXPECT_EQ(found_beside("{'name': 'm', 'parent': 'ctl'}"), ""); }

}  // namespace ligament::testing
