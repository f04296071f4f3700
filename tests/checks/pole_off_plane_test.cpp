// Does `pole-off-plane` name poles that would turn their chain, and only these?
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "found.hpp"

namespace ligament::testing {

namespace {

/// A chain from (0, 0, 0) by way of (0, 1, 1) to (0, 2, 0): it bends to +z about the line y. The pole stands `degrees` about that
/// line beside +z.
std::string leg(double degrees, double away = 3, const std::string& more = {}) {
    const double angle = degrees * std::numbers::pi / 180;
    return "{'name': 'foot', 'roles': ['control'], 'rest': {'translation': [0, 2, 0]}}, {'name': 'knee', 'roles': ['control'], "
           "'rest': {'translation': [" +
           std::to_string(away * std::sin(angle)) + ", 0.5, " + std::to_string(away * std::cos(angle)) +
           "]}}, {'name': 'thigh', 'rest': {}}, {'name': 'shin', 'parent': 'thigh', 'rest': {'translation': [0, 1, 1]}, 'tip': "
           "[0, "
           "1, -1], 'constraints': [{'name': 'reach', 'kind': 'ik', 'target': 'foot', 'pole': 'knee', 'chain': 2" +
           more + "}]}";
}

std::string off(const std::string& bones) { return found("pole-off-plane", bones); }

const std::string pole = "warning the pole \"knee\" of solver \"shin/reach\" ";

}  // namespace

// Worked by hand from the places above.
TEST(CheckPoleOffPlane, TellsTheAngleBesideThePlane) {
    EXPECT_EQ(off(leg(12.5)),
              pole + "lies 12.5 degrees beside the plane in which the chain is bent at rest: it would turn [shin]\n");
    EXPECT_EQ(off(leg(-12.5)), off(leg(12.5)));
    EXPECT_EQ(first_found("pole-off-plane", look_at(leg(12.5))).maker, "shin/reach");
}

TEST(CheckPoleOffPlane, APoleInThePlaneIsSilentHoweverFar) {
    EXPECT_EQ(off(leg(0)), "");
    EXPECT_EQ(off(leg(0.9)), "") << "within a degree";
    EXPECT_EQ(off(leg(0, 0.1)), "") << "within the bend, but on its side";
    EXPECT_NE(off(leg(1.1)), "");
}

TEST(CheckPoleOffPlane, APoleOnTheOtherSideFlipsIt) {
    EXPECT_EQ(off(leg(180)), pole +
                                 "lies on the other side than the one to which the chain is bent at rest, 180 degrees about the "
                                 "chain: it would flip [shin]\n");
    EXPECT_EQ(off(leg(0, 0)), pole + "lies on the line from the chain's root to its end, so that it points to no side [shin]\n");
}

TEST(CheckPoleOffPlane, WhatIsNotKnownIsNotFoundFaultWith) {
    EXPECT_EQ(off(leg(40, 3, ", 'enabled': false")), "");
    EXPECT_EQ(
        off("{'name': 'foot', 'rest': {'translation': [0, 2, 0]}}, {'name': 'knee'}, {'name': 'thigh', 'rest': {}}, {'name': "
            "'shin', 'parent': 'thigh', 'rest': {'translation': [0, 1, 1]}, 'tip': [0, 1, -1], 'constraints': [{'kind': "
            "'ik', 'target': 'foot', 'pole': 'knee', 'chain': 2}]}"),
        "")
        << "the pole has no rest";
}

TEST(CheckPoleOffPlane, OfLongChainsTheFarthestJointTells) {
    // Joints (0,0,0), (0,1,a), (x,2,b), (0,3,0): the line is y.
    const auto chain = [](const std::string& second, const std::string& third, const std::string& tip, const std::string& at) {
        return "{'name': 'knee', 'rest': {'translation': " + at +
               "}}, {'name': 'a', 'rest': {}}, {'name': 'b', 'parent': 'a', "
               "'rest': {'translation': " +
               second + "}}, {'name': 'c', 'parent': 'b', 'rest': {'translation': " + third + "}, 'tip': " + tip +
               ", 'constraints': [{'name': 'reach', 'kind': 'ik', 'target': 'knee', 'pole': 'knee', "
               "'chain': 3}]}";
    };
    EXPECT_EQ(off(chain("[0, 1, -0.1]", "[0, 1, 0.6]", "[0, 1, -0.5]", "[0, 1, 2]")), "") << "in one plane, bent to both sides";
    EXPECT_NE(off(chain("[0, 1, -0.6]", "[0, 1, 0.7]", "[0, 1, -0.1]", "[0, 1, 2]")), "") << "the farther one lies at -z";
    EXPECT_EQ(off(chain("[0.3, 1, 0]", "[-0.3, 1, 0.5]", "[0, 1, -0.5]", "[2, 1, 2]")), "") << "it has no plane";
}

}  // namespace ligament::testing
