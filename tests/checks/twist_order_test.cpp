// Does `twist-order` name numbered bones along a segment that stand in the wrong order?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string reading(const std::string& name, const std::string& at, const std::string& words = "'kind': 'position'",
                    const std::string& bone = "forearm") {
    return ", {'name': '" + name + "', 'constraints': [{'name': 'place', " + words + ", 'from': {'bone': '" + bone +
           "', 'at': " + at + "}}]}";
}

std::string order(const std::string& bones) {
    return found("twist-order", "{'name': 'forearm', 'roles': ['control']}, {'name': 'hand'}" + bones);
}

}  // namespace

// Common practice, no source: twist bones stand at rising shares of the segment, such as a half and its end.
TEST(CheckTwistOrder, NamesTheBoneThatStandsBeforeItsPredecessor) {
    const std::string bones = reading("twist_1", "0.75") + reading("twist_2", "0.25");
    EXPECT_EQ(order(bones), "warning \"twist_2\" stands along \"forearm\" at 0.25, not beyond \"twist_1\" at 0.75 [twist_2]\n");
    EXPECT_EQ(order(reading("twist_1", "0.5") + reading("twist_2", "0.5")),
              "warning \"twist_2\" stands along \"forearm\" at 0.5, not beyond \"twist_1\" at 0.5 [twist_2]\n");
    EXPECT_EQ(order(reading("twist_1", "0.5") + reading("twist_2", "0")),
              "warning \"twist_2\" stands along \"forearm\" at 0, not beyond \"twist_1\" at 0.5 [twist_2]\n");
}

TEST(CheckTwistOrder, RisingPlacesAreSilent) {
    EXPECT_EQ(order(reading("twist_1", "0.25") + reading("twist_2", "0.75")), "");
    EXPECT_EQ(order(reading("twist_10", "0.9") + reading("twist_9", "0.8") + reading("twist_02", "0.1")), "")
        << "numbers count, not their text or place in the file";
    EXPECT_EQ(order(reading("twist_1", "0.5", "'kind': 'transform'") + reading("twist_2", "1", "'kind': 'transform'")), "");
}

TEST(CheckTwistOrder, WhatIsNoSeriesIsSilent) {
    EXPECT_EQ(order(reading("twist_1", "0.75") + reading("twist_2", "0.25", "'kind': 'position'", "hand")), "")
        << "another segment";
    EXPECT_EQ(order(reading("twist_1_l", "0.75") + reading("twist_2_r", "0.25")), "") << "another side";
    EXPECT_EQ(order(reading("twist_1", "0.75") + reading("roll_2", "0.25")), "") << "another name";
    EXPECT_EQ(order(reading("finger_1", "0") + reading("finger_2", "0") + reading("finger_3", "0")), "") << "all follow the base";
    EXPECT_EQ(order(reading("twist_1", "0.75", "'kind': 'rotation'") + reading("twist_2", "0.25", "'kind': 'rotation'")), "")
        << "no place is taken";
    EXPECT_EQ(order(reading("twist_1", "0.75") + reading("twist_2", "0.25", "'enabled': false, 'kind': 'position'")), "");
    EXPECT_EQ(order(", {'name': 'index_1', 'parent': 'hand'}, {'name': 'index_2', 'parent': 'hand'}"), "");
}

}  // namespace ligament::testing
