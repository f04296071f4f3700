// Does `chain-shared` name the solvers that fight over a bone?
#include <gtest/gtest.h>

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

TEST(CheckChainShared, OneFindingAPair) {
    EXPECT_EQ(found("chain-shared", ctl + bone("a", "ctl") + bone("b", "a", "'chain': 2") + bone("c", "a", "'chain': 2") +
                                        bone("d", "a", "'chain': 2")),
              "warning solvers \"b/reach\" and \"c/reach\" both have \"a\" in their chains, at full weight [a]\n"
              "warning solvers \"b/reach\" and \"d/reach\" both have \"a\" in their chains, at full weight [a]\n"
              "warning solvers \"c/reach\" and \"d/reach\" both have \"a\" in their chains, at full weight [a]\n");
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
