// Does `chain-too-long` name the solvers that ask for more bones than there are?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string leg(const std::string& solver, const std::string& thigh_parent = "") {
    return "{'name': 'ctl', 'roles': ['control']}, {'name': 'thigh'" + thigh_parent +
           "}, {'name': 'shin', 'parent': 'thigh', "
           "'constraints': [\n{'name': 'reach', 'kind': " +
           solver + "}]}";
}

}  // namespace

TEST(CheckChainTooLong, CountsTheAncestors) {
    const Looked looked = look_at(leg("'ik', 'target': 'ctl', 'chain': 3"));
    EXPECT_EQ(found("chain-too-long", looked),
              "error solver \"shin/reach\" has a chain of 3 bones, but \"shin\" and its ancestors are only 2 [shin]\n");
    EXPECT_EQ(first_found("chain-too-long", looked).place, (Place{2, 1}));
    EXPECT_EQ(first_found("chain-too-long", looked).maker, "shin/reach");
}

TEST(CheckChainTooLong, TellsAnOwnerWithoutParent) {
    EXPECT_EQ(found("chain-too-long",
                    "{'name': 'ctl', 'roles': ['control']}, {'name': 'toe', 'constraints': [{'name': 'along', "
                    "'kind': 'path', 'from': 'ctl', 'chain': 2}]}"),
              "error solver \"toe/along\" has a chain of 2 bones, but \"toe\" has no parent [toe]\n");
}

TEST(CheckChainTooLong, NearMissExactlyAsLong) {
    EXPECT_EQ(found("chain-too-long", leg("'ik', 'target': 'ctl', 'chain': 2")), "");
}

TEST(CheckChainTooLong, NearMissOneAncestorMore) {
    EXPECT_EQ(found("chain-too-long", leg("'ik', 'target': 'ctl', 'chain': 3", ", 'parent': 'ctl'")), "");
}

TEST(CheckChainTooLong, NearMissADisabledSolver) {
    EXPECT_EQ(found("chain-too-long", leg("'ik', 'target': 'ctl', 'chain': 3, 'enabled': false")), "");
}

}  // namespace ligament::testing
