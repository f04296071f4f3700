// Does `chain-straight` name chains that have no side to bend to?
#include <gtest/gtest.h>

#include <cmath>

#include "found.hpp"

namespace ligament::testing {

namespace {

/// A chain of two bones of length 1 along y, the second one turned by `bend` degrees about x.
std::string leg(double bend, const std::string& solver = "'chain': 2", const std::string& tip = "'tip': [0, 1, 0], ",
                const std::string& rest = {}) {
    const double half = bend * 3.14159265358979323846 / 360;
    const std::string turn = "[" + std::to_string(std::sin(half)) + ", 0, 0, " + std::to_string(std::cos(half)) + "]";
    return "{'name': 'foot', 'roles': ['control'], 'rest': {'translation': [0, 2, 0]}}, {'name': 'shin', 'rest': {}" + rest +
           "}, {'name': 'tarsus', 'parent': 'shin', " + tip + "'rest': {'translation': [0, 1, 0], 'rotation': " + turn +
           "}, 'constraints': [{'name': 'reach', 'kind': 'ik', 'target': 'foot', " + solver + "}]}";
}

std::string straight(const std::string& bones) { return found("chain-straight", bones); }

const std::string shin_to_tarsus =
    "warning the chain of solver \"tarsus/reach\" is straight at rest, from \"shin\" to the end of \"tarsus\": it has no side to "
    "bend to [tarsus]\n";

}  // namespace

// Common practice, no source: limbs are built slightly bent, so that the solver knows its side.
TEST(CheckChainStraight, NamesTheSolversBone) {
    EXPECT_EQ(straight(leg(0)), shin_to_tarsus);
    EXPECT_EQ(straight(leg(0.4)), shin_to_tarsus) << "less than half a degree";
    EXPECT_EQ(first_found("chain-straight", look_at(leg(0))).maker, "tarsus/reach");
    EXPECT_EQ(first_found("chain-straight", look_at(leg(0))).hint,
              "bend it at rest, by 1 degrees or more, to the side to which it is to bend");
}

TEST(CheckChainStraight, ABentChainIsSilent) {
    EXPECT_EQ(straight(leg(0.6)), "");
    EXPECT_EQ(straight(leg(90)), "");
    EXPECT_EQ(straight(leg(180)), "") << "bent back onto itself";
}

TEST(CheckChainStraight, WithoutTipTheTargetIsTheEnd) {
    EXPECT_EQ(straight(leg(0, "'chain': 2", "")), shin_to_tarsus);
    EXPECT_EQ(straight(leg(45, "'chain': 2", "")), shin_to_tarsus) << "where it turns does not count";
}

TEST(CheckChainStraight, OneBoneAndUnknownPlacesAreNotLookedAt) {
    EXPECT_EQ(straight(leg(0, "'chain': 1")), "");
    EXPECT_EQ(straight(leg(0, "'chain': 2, 'enabled': false")), "");
    EXPECT_EQ(straight(leg(0, "'chain': 2", "'tip': [0, 1, 0], ", ", 'parent': 'foot'")), shin_to_tarsus);
    EXPECT_EQ(straight("{'name': 'a'}, {'name': 'b', 'parent': 'a', 'rest': {'translation': [0, 1, 0]}, 'tip': [0, 1, 0], "
                       "'constraints': [{'kind': 'ik', 'target': 't', 'chain': 2}]}, {'name': 't', 'rest': {}}"),
              "");
    EXPECT_EQ(straight(leg(0, "'chain': 2", "'tip': [0, 0, 0], ")), "") << "two joints are no chain to bend";
}

TEST(CheckChainStraight, ThenThePoleIsNotFoundFaultWith) {
    EXPECT_EQ(found("pole-off-plane", leg(0.3, "'chain': 2, 'pole': 'foot'")), "");
}

}  // namespace ligament::testing
