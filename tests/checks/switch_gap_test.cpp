// Does `switch-gap` name the bone of a run that a switch leaves out, and no other?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string joint(const std::string& name, const std::string& parent, const std::string& weight,
                  const std::string& second = "transform") {
    return "{'name': '" + name + "', 'parent': '" + parent +
           "', 'constraints': [{'name': 'ik', 'kind': 'transform', 'from': 'ctl'}, {'name': 'fk', 'kind': '" + second +
           "', 'from': 'ctl'" + weight + "}]}";
}

const std::string ctl = "{'name': 'ctl', 'roles': ['control']}, ";
const std::string driven = ", 'weight': {'expression': 's', 'inputs': {'s': {'property': 'mode'}}}";
const std::string mode = "'properties': [{'name': 'mode'}]";

}  // namespace

// Common practice, no source: all three bones of a blended chain carry the driver; the forgotten one is a classic fault.
TEST(CheckSwitchGap, NamesTheForgottenDriver) {
    const Looked looked = look_at(
        ctl + joint("upper", "ctl", driven) + ", " + joint("forearm", "upper", "") + ", " + joint("hand", "forearm", driven),
        mode);
    EXPECT_EQ(
        found("switch-gap", looked),
        "warning switch \"mode\" gates this place of the stack on \"upper\" and \"hand\", but not \"forearm/fk\" of the same run "
        "[forearm]\n");
    EXPECT_EQ(first_found("switch-gap", looked).hint, "drive its weight by \"mode\" as theirs are");
}

TEST(CheckSwitchGap, IsSilentWhereAllAreDriven) {
    EXPECT_EQ(found("switch-gap", ctl + joint("upper", "ctl", driven) + ", " + joint("forearm", "upper", driven), mode), "");
}

TEST(CheckSwitchGap, OneDrivenBoneMakesNoRule) {
    EXPECT_EQ(found("switch-gap", ctl + joint("upper", "ctl", driven) + ", " + joint("forearm", "upper", ""), mode), "");
}

TEST(CheckSwitchGap, AnotherStackIsAnotherRun) {
    EXPECT_EQ(found("switch-gap",
                    ctl + joint("upper", "ctl", driven) + ", " + joint("forearm", "upper", driven) + ", " +
                        joint("hand", "forearm", "", "rotation"),
                    mode),
              "");
}

TEST(CheckSwitchGap, BonesThatAreNotLinkedAreNoRun) {
    EXPECT_EQ(
        found("switch-gap",
              ctl + joint("upper", "ctl", driven) + ", " + joint("forearm", "upper", driven) + ", " + joint("tail", "ctl", ""),
              mode),
        "");
}

TEST(CheckSwitchGap, ReachesThroughDrivenProperties) {
    EXPECT_EQ(found("switch-gap", ctl + joint("upper", "ctl", driven) + ", " + joint("forearm", "upper", ""),
                    "'properties': [{'name': 'top'}, {'name': 'mode', 'value': {'expression': 't', 'inputs': {'t': {'property': "
                    "'top'}}}}]"),
              "");
    EXPECT_NE(found("switch-gap",
                    ctl + joint("upper", "ctl", driven) + ", " + joint("forearm", "upper", driven) + ", " +
                        joint("hand", "forearm", ""),
                    "'properties': [{'name': 'top'}, {'name': 'mode', 'value': {'expression': 't', 'inputs': {'t': {'property': "
                    "'top'}}}}]"),
              "");
}

}  // namespace ligament::testing
