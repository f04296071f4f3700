// Does `cycle` say which bones need each other in a ring, at channel and step grain only?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

TEST(CheckCycle, NamesTheLoopFromItsFirstBoneWithEdgeKindsAndGrain) {
    EXPECT_EQ(found("cycle",
                    "{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'transform', 'from': 'head'}]},"
                    "{'name': 'head', 'parent': 'neck'}"),
              "error neck -> head -> neck at channel grain (parent head, constraint neck/track) [neck head]\n");
}

TEST(CheckCycle, StandsAtTheMakerOfTheFirstWitnessEdge) {
    const Looked looked = look_at(
        "{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'transform', 'from': 'head'}]},\n"
        "{'name': 'head', 'constraints': [\n"
        "  {'name': 'copy', 'kind': 'transform', 'from': 'neck'}]}");
    EXPECT_EQ(first_found("cycle", looked).place, (Place{3, 3}));
}

TEST(CheckCycle, HintsAtTheCheapestEdge) {
    const Looked looked = look_at(
        "{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'transform', 'from': 'head'}]},"
        "{'name': 'head', 'parent': 'neck'}");
    EXPECT_EQ(first_found("cycle", looked).hint,
              "let \"neck/track\" read a bone outside the loop instead of \"head\", or give it up");
}

TEST(CheckCycle, HintsAtAllMakersOfTheCheapestCut) {
    const Looked looked = look_at(
        "{'name': 'a', 'constraints': [{'name': 'x', 'kind': 'rotation', 'from': 'b'}, {'name': 'y', 'kind': 'rotation', 'from': "
        "'c'}]}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'a'}");
    EXPECT_EQ(first_found("cycle", looked).hint,
              "cut it at constraint \"a/x\" and constraint \"a/y\", together at a cost of 4: let each read something outside the "
              "loop");
}

TEST(CheckCycle, OneAtStepGrainIsAnErrorToo) {
    EXPECT_EQ(found("cycle",
                    "{'name': 'a', 'constraints': [{'name': 'p', 'kind': 'position', 'from': 'b'}]},"
                    "{'name': 'b', 'constraints': [{'name': 'r', 'kind': 'rotation', 'from': 'a'}]}"),
              "error a -> b -> a at step grain (constraint b/r, constraint a/p) [a b]\n");
}

TEST(CheckCycle, NamesPropertiesOfALoopOfPropertiesAlone) {
    EXPECT_EQ(found("cycle", "{'name': 'a'}",
                    "'properties': [{'name': 'p', 'value': {'expression': 'x', 'inputs': {'x': {'property': 'q'}}}},"
                    "{'name': 'q', 'value': {'expression': 'x', 'inputs': {'x': {'property': 'p'}}}}]"),
              "error p -> q -> p at channel grain (driver q, driver p) [] p\n");
}

TEST(CheckCycle, ShowsTheFirstEdgesOfALongOneAndSaysSo) {
    std::string bones;
    for (int i = 0; i < 30; ++i)
        bones += (i > 0 ? ",{'name': 'b" : "{'name': 'b") + std::to_string(i) +
                 "', 'constraints': [{'name': 'c', 'kind': 'transform', 'from': 'b" + std::to_string((i + 29) % 30) + "'}]}";
    const std::string message = first_found("cycle", look_at(bones)).message;
    EXPECT_NE(message.find("b0 -> b1 -> b2"), std::string::npos) << message;
    EXPECT_NE(message.find("b11 -> ... -> b0 at channel grain"), std::string::npos) << message;
    EXPECT_NE(message.find("showing 12 of 30 edges"), std::string::npos) << message;
}

TEST(CheckCycle, SaysHowManyBonesTheComponentHasBeyondTheLoop) {
    const std::string message =
        first_found("cycle", look_at("{'name': 'a', 'constraints': [{'name': 'x', 'kind': 'transform', 'from': "
                                     "['b', 'c']}]},"
                                     "{'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'}"))
            .message;
    EXPECT_NE(message.find("within 3 bones that need each other"), std::string::npos) << message;
}

TEST(CheckCycle, CountsSeparateLoopsOfOneComponent) {
    // Two true loops, a with b and c with d, which only the whole bones tie together: b's pose feeds c, d's pose feeds a.
    const auto loop = [](std::string first, std::string second, std::string reads) {
        return "{'name': '" + first + "', 'channels': {'scale.x': {'expression': 's', 'inputs': {'s': {'bone': '" + reads +
               "', 'channel': 'scale.y'}}}}, 'constraints': [{'name': 'turn', 'kind': 'rotation', 'from': '" + second +
               "'}]}, {'name': '" + second + "', 'constraints': [{'name': 'turn', 'kind': 'rotation', 'from': '" + first + "'}]}";
    };
    EXPECT_EQ(found("cycle", loop("a", "b", "d") + "," + loop("c", "d", "b")),
              "error a -> b -> a at channel grain (constraint b/turn, constraint a/turn), within 4 bones that need each other, "
              "one of 2 "
              "separate loops [a b c d]\n");
}

TEST(CheckCycle, NearMissBoneGrainAloneIsForAnotherCheck) {
    EXPECT_EQ(found("cycle",
                    "{'name': 'a', 'channels': {'rotation.x': {'expression': 'r', 'inputs': {'r': {'bone': 'b', 'channel': "
                    "'rotation.x'}}}}}, {'name': 'b', 'parent': 'a'}"),
              "");
}

TEST(CheckCycle, NearMissInertConstraintsMakeNoLoop) {
    EXPECT_EQ(found("cycle",
                    "{'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b', 'weight': 0}]},"
                    "{'name': 'b', 'parent': 'a'}"),
              "");
}

TEST(CheckCycle, CleanChainHasNone) {
    EXPECT_EQ(found("cycle", "{'name': 'a'}, {'name': 'b', 'parent': 'a', 'constraints': [{'kind': 'aim', 'from': 'a'}]}"), "");
}

}  // namespace ligament::testing
