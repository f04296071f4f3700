// Does `ik-no-pole` note the chains that nothing tells where to bend?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string found_in_leg(const std::string& solver, const std::string& thigh_parent = "",
                         const std::string& kind = "'ik', 'target': 'ctl'") {
    return found("ik-no-pole", "{'name': 'ctl', 'roles': ['control']}, {'name': 'thigh'" + thigh_parent +
                                   "}, {'name': 'shin', 'parent': "
                                   "'thigh', 'constraints': [{'name': 'reach', 'kind': " +
                                   kind + ", " + solver + "}]}");
}

}  // namespace

TEST(CheckIkNoPole, CountsTheBones) {
    EXPECT_EQ(found_in_leg("'chain': 2"), "note solver \"shin/reach\" bends a chain of 2 bones without a pole [shin]\n");
}

TEST(CheckIkNoPole, APoleOfWeightZeroIsNone) { EXPECT_NE(found_in_leg("'chain': 2, 'pole': {'bone': 'ctl', 'weight': 0}"), ""); }

TEST(CheckIkNoPole, CountsTheBonesThatThereAre) {
    EXPECT_EQ(found_in_leg("'chain': 5"), "note solver \"shin/reach\" bends a chain of 2 bones without a pole [shin]\n");
    EXPECT_EQ(found("ik-no-pole",
                    "{'name': 'ctl', 'roles': ['control']}, {'name': 'toe', 'constraints': [{'kind': 'ik', 'target': "
                    "'ctl', 'chain': 2}]}"),
              "");
}

TEST(CheckIkNoPole, NearMissAChainOfOne) { EXPECT_EQ(found_in_leg("'chain': 1"), ""); }

TEST(CheckIkNoPole, NearMissAPathHasNoPole) { EXPECT_EQ(found_in_leg("'chain': 2", "", "'path', 'from': 'ctl'"), ""); }

TEST(CheckIkNoPole, NearMissDisabled) { EXPECT_EQ(found_in_leg("'chain': 2, 'enabled': false"), ""); }

TEST(CheckIkNoPole, CleanWithAPole) { EXPECT_EQ(found_in_leg("'chain': 2, 'pole': 'ctl'"), ""); }

}  // namespace ligament::testing
