// Does `chain-shared` name the solvers that fight over a bone?
#include <gtest/gtest.h>

#include <algorithm>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string bone(const std::string& name, const std::string& parent, const std::string& solver = "") {
    return ", {'name': '" + name + "', 'parent': '" + parent + "'" +
           (solver.empty() ? "}" : ", 'constraints': [\n{'name': 'reach', 'target': 'ctl', 'kind': 'ik', " + solver + "}]}");
}

const std::string ctl = "{'name': 'ctl', 'roles': ['control']}";
const std::string by_mode = ", 'weight': {'expression': 'm', 'inputs': {'m': {'property': 'mode'}}}";

}  // namespace

TEST(CheckChainShared, ListsTheSharedBones) {
    const Looked looked = look_at(ctl + bone("hip", "ctl") + bone("thigh", "hip") + bone("shin", "thigh", "'chain': 3") +
                                  bone("foot", "shin", "'chain': 4"));
    EXPECT_EQ(
        found("chain-shared", looked),
        "warning solvers \"shin/reach\" and \"foot/reach\" both have \"hip\", \"thigh\" and \"shin\" in their chains, at full "
        "weight [hip thigh shin]\n");
    EXPECT_EQ(first_found("chain-shared", looked).place, (Place{3, 1}));
    EXPECT_EQ(first_found("chain-shared", looked).maker, "shin/reach and foot/reach");
}

TEST(CheckChainShared, OneFindingForAllThatShareTheSameBones) {
    const Looked looked = look_at(ctl + bone("a", "ctl") + bone("b", "a", "'chain': 2") + bone("c", "a", "'chain': 2") +
                                  bone("d", "a", "'chain': 2"));
    EXPECT_EQ(found("chain-shared", looked),
              "warning solvers \"b/reach\", \"c/reach\" and \"d/reach\" all have \"a\" in their chains, at full weight [a]\n");
    EXPECT_EQ(first_found("chain-shared", looked).place, (Place{4, 1}));
    EXPECT_EQ(first_found("chain-shared", looked).maker, "b/reach, c/reach and d/reach");
    EXPECT_NE(first_found("chain-shared", looked).hint.find("all but one"), std::string::npos);
}

TEST(CheckChainShared, OneFindingForEachSetOfSolvers) {
    // b shares a with both others; c and d share c as well.
    EXPECT_EQ(found("chain-shared", ctl + bone("a", "ctl") + bone("b", "a", "'chain': 2") + bone("c", "a", "'chain': 2") +
                                        bone("d", "c", "'chain': 3")),
              "warning solvers \"b/reach\", \"c/reach\" and \"d/reach\" all have \"a\" in their chains, at full weight [a]\n"
              "warning solvers \"c/reach\" and \"d/reach\" both have \"c\" in their chains, at full weight [c]\n");
}

TEST(CheckChainShared, NamesTwelveOfMany) {
    std::string bones = ctl + bone("a", "ctl");
    for (char c = 'b'; c < 'p'; ++c) bones += bone(std::string(1, c), "a", "'chain': 2");
    const std::string said = found("chain-shared", bones);
    EXPECT_NE(said.find("\"l/reach\", \"m/reach\" (showing 12 of 14) all have \"a\" in"), std::string::npos) << said;
    EXPECT_EQ(said.find("n/reach"), std::string::npos);
    EXPECT_EQ(std::count(said.begin(), said.end(), '\n'), 1);
}

TEST(CheckChainShared, NearMissChainsThatFollowEachOther) {
    EXPECT_EQ(found("chain-shared",
                    ctl + bone("thigh", "ctl") + bone("shin", "thigh", "'chain': 2") + bone("foot", "shin", "'chain': 1")),
              "");
}

TEST(CheckChainShared, NearMissWeightsThatAreNotConstantlyFull) {
    for (const std::string& weight :
         {std::string(", 'weight': 0.5"), std::string(", 'weight': 0"), std::string(", 'enabled': false"), by_mode})
        EXPECT_EQ(
            found("chain-shared",
                  ctl + bone("thigh", "ctl") + bone("shin", "thigh", "'chain': 2") + bone("foot", "shin", "'chain': 2" + weight),
                  "'properties': [{'name': 'mode'}]"),
            "")
            << weight;
}

TEST(CheckChainShared, CleanLimbs) {
    EXPECT_EQ(found("chain-shared", ctl + bone("hip", "ctl") + bone("thigh_l", "hip") + bone("shin_l", "thigh_l", "'chain': 2") +
                                        bone("thigh_r", "hip") + bone("shin_r", "thigh_r", "'chain': 2")),
              "");
}

}  // namespace ligament::testing
