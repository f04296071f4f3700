// Does `property-unused` name the properties that no driver reads?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {
constexpr std::string_view driven_by_p =
    "{'name': 'a', 'channels': {'rotation.x': {'expression': 'x', 'inputs': {'x': {'property': 'p'}}}}}";
}

TEST(CheckPropertyUnused, NamesPropertyAndTheBoneItIsOn) {
    EXPECT_EQ(found("property-unused", "{'name': 'ctl', 'roles': ['control']}",
                    "'properties': [{'name': 'blink', 'on': 'ctl'}, {'name': 'mood'}]"),
              "warning no driver reads property \"blink\" [ctl] blink\nwarning no driver reads property \"mood\" [] mood\n");
}

TEST(CheckPropertyUnused, StandsAtTheProperty) {
    EXPECT_EQ(first_found("property-unused", look_at("{'name': 'a'}", "'properties': [\n  {'name': 'p'}]")).place, (Place{3, 3}));
}

TEST(CheckPropertyUnused, ADrivenPropertyThatNothingReadsIsUnusedToo) {
    EXPECT_EQ(
        found("property-unused", "{'name': 'a'}",
              "'properties': [{'name': 'p'}, {'name': 'q', 'value': {'expression': 'x', 'inputs': {'x': {'property': 'p'}}}}]"),
        "warning no driver reads property \"q\" [] q\n");
}

TEST(CheckPropertyUnused, NearMissAnInputThatTheExpressionLeavesOutStillReads) {
    EXPECT_EQ(found("property-unused",
                    "{'name': 'a', 'channels': {'rotation.x': {'expression': '1', 'inputs': {'x': {'property': 'p'}}}}}",
                    "'properties': [{'name': 'p'}]"),
              "");
}

TEST(CheckPropertyUnused, CleanWhenReadByExpressionOrCurve) {
    EXPECT_EQ(found("property-unused", driven_by_p, "'properties': [{'name': 'p'}]"), "");
    EXPECT_EQ(found("property-unused",
                    "{'name': 'a', 'channels': {'rotation.x': {'curve': [[0, 0], [1, 1]], 'input': {'property': 'p'}}}}",
                    "'properties': [{'name': 'p'}]"),
              "");
}

}  // namespace ligament::testing
