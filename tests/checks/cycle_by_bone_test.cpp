// Does `cycle-by-bone` say what only bone-by-bone evaluation finds circular?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {
constexpr std::string_view parent_reads_childs_pose =
    "{'name': 'a', 'channels': {'rotation.x': {'expression': 'r', 'inputs': {'r': {'bone': 'b', 'channel': 'rotation.x'}}}}},"
    "{'name': 'b', 'parent': 'a'}";
}

TEST(CheckCycleByBone, WarnsAtBoneGrain) {
    EXPECT_EQ(found("cycle-by-bone", parent_reads_childs_pose),
              "warning a -> b -> a at bone grain (parent b, driver a/rotation.x) [a b]\n");
}

TEST(CheckCycleByBone, FindsABoneThatReadsItself) {
    EXPECT_EQ(found("cycle-by-bone",
                    "{'name': 'a', 'constraints': [{'name': 'stop', 'kind': 'limit', 'channels': ['rotation'], 'weight': "
                    "{'expression': 'r', 'inputs': {'r': {'bone': 'a', 'channel': 'rotation.y'}}}}]}"),
              "warning a -> a at bone grain (driver a/stop) [a]\n");
}

TEST(CheckCycleByBone, HintNamesWhatReads) {
    EXPECT_NE(first_found("cycle-by-bone", look_at(parent_reads_childs_pose)).hint.find("\"a/rotation.x\""), std::string::npos);
}

TEST(CheckCycleByBone, HintNamesAllMakersOfTheCheapestCut) {
    EXPECT_EQ(
        first_found("cycle-by-bone",
                    look_at("{'name': 'a', 'channels': {'rotation.x': {'expression': 'r', 'inputs': {'r': {'bone': 'b', "
                            "'channel': 'rotation.x'}}}, 'rotation.y': {'expression': 'r', 'inputs': {'r': {'bone': 'b', "
                            "'channel': 'rotation.y'}}}}}, {'name': 'b', 'parent': 'a'}"))
            .hint,
        "where the host evaluates bone by bone, cut it at driver \"a/rotation.x\" and driver \"a/rotation.y\", together at a "
        "cost of 2, or split the bones in two, one that is read and one that reads");
}

TEST(CheckCycleByBone, NearMissARealCycleIsNotSaidTwice) {
    EXPECT_EQ(found("cycle-by-bone",
                    "{'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b'}]}, {'name': 'b', 'parent': 'a'}"),
              "");
}

TEST(CheckCycleByBone, CleanWhenTheChildReadsTheParent) {
    EXPECT_EQ(found("cycle-by-bone",
                    "{'name': 'a'}, {'name': 'b', 'parent': 'a', 'channels': {'rotation.x': {'expression': 'r', "
                    "'inputs': {'r': {'bone': 'a', 'channel': 'rotation.x'}}}}}"),
              "");
}

}  // namespace ligament::testing
