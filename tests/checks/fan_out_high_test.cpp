// Does `fan-out-high` note the properties that reach more than 64 targets?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

constexpr std::string_view one_property = "'properties': [{'name': 'main', 'on': 'b0'}]";

// Bones with a driven channel each, the first `weights` of them with a driven weight too.
std::string driven_bones(int bones, int weights) {
    const std::string driver = "{'expression': 'x', 'inputs': {'x': {'property': 'main'}}}";
    std::string text;
    for (int i = 0; i < bones; ++i) {
        text += (i > 0 ? ", {'name': 'b" : "{'name': 'b") + std::to_string(i) + "', 'channels': {'rotation.x': " + driver + "}";
        if (i < weights) text += ", 'constraints': [{'kind': 'limit', 'channels': ['rotation'], 'weight': " + driver + "}]";
        text += "}";
    }
    return text;
}

}  // namespace

TEST(CheckFanOutHigh, CountsWeightsChannelsAndProperties) {
    EXPECT_EQ(found("fan-out-high", driven_bones(62, 2),
                    "'properties': [{'name': 'main', 'on': 'b0'}, {'name': 'q', 'value': {'expression': 'x', 'inputs': {'x': "
                    "{'property': "
                    "'main'}}}}]"),
              "note property \"main\" reaches 65 targets, more than 64: 2 weights, 62 channels, 1 property [b0] main\n");
}

TEST(CheckFanOutHigh, NearMissExactly64) { EXPECT_EQ(found("fan-out-high", driven_bones(62, 2), one_property), ""); }

TEST(CheckFanOutHigh, CleanWithFew) { EXPECT_EQ(found("fan-out-high", driven_bones(3, 1), one_property), ""); }

}  // namespace ligament::testing
