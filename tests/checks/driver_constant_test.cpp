// Does `driver-constant` name the drivers whose value cannot change?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

constexpr std::string_view one_property = "'properties': [{'name': 'p', 'on': 'a'}]";

// A bone with a channel driven by an expression over the inputs `x` and `min`.
std::string driven(std::string_view expression) {
    return "{'name': 'a', 'channels': {'rotation.x': {'expression': '" + std::string(expression) +
           "', 'inputs': {'x': {'property': 'p'}, 'min': {'property': 'p'}, 'e5': {'property': 'p'}}}}}";
}

bool is_constant(std::string_view expression) { return !found("driver-constant", driven(expression), one_property).empty(); }

}  // namespace

TEST(CheckDriverConstant, NamesADrivenChannelAndItsExpression) {
    EXPECT_EQ(found("driver-constant", driven("0.5 + 0.5"), one_property),
              "warning the driver of channel \"a/rotation.x\" cannot change: its expression \"0.5 + 0.5\" names no input [a]\n");
}

TEST(CheckDriverConstant, NamesWeightsSourcesAndProperties) {
    EXPECT_EQ(found("driver-constant",
                    "{'name': 'a'}, {'name': 'b', 'constraints': [{'name': 'c', 'kind': 'transform', 'from': ['a', {'bone': 'a', "
                    "'weight': "
                    "{'expression': '1', 'inputs': {}}}], 'weight': {'curve': [[0, 1], [1, 1]], 'input': {'property': 'p'}}}]}",
                    "'properties': [{'name': 'p'}, {'name': 'q', 'on': 'b', 'value': {'expression': '2', 'inputs': {}}}]"),
              "warning the driver of the weight of source 2 of \"b/c\" cannot change: its expression \"1\" names no input [b]\n"
              "warning the driver of the weight of \"b/c\" cannot change: its curve is flat [b]\n"
              "warning the driver of property \"q\" cannot change: its expression \"2\" names no input [b] q\n");
}

TEST(CheckDriverConstant, StandsAtTheDriver) {
    const Looked looked = look_at(
        "{'name': 'a', 'channels': {'rotation.x':\n  {'expression': '1', 'inputs': {'x': {'property': 'p'}}}}}", one_property);
    EXPECT_EQ(first_found("driver-constant", looked).place, (Place{2, 3}));
}

TEST(CheckDriverConstant, TellsNamesFromFunctionsAndNumbers) {
    EXPECT_TRUE(is_constant("min(1, 2)"));
    EXPECT_TRUE(is_constant("min (1, 2)"));
    EXPECT_FALSE(is_constant("min + 1"));
    EXPECT_FALSE(is_constant("min(min, 2)"));
    EXPECT_TRUE(is_constant("1e5 + 2.5E-3"));
    EXPECT_FALSE(is_constant("1 + e5"));
    EXPECT_FALSE(is_constant("2*x"));
    EXPECT_FALSE(is_constant("(x)"));
    EXPECT_FALSE(is_constant("1 < x"));
}

TEST(CheckDriverConstant, NearMissACurveWithOneStepIsNotFlat) {
    const auto rig = [](std::string_view points) {
        return "{'name': 'a', 'channels': {'rotation.x': {'curve': " + std::string(points) + ", 'input': {'property': 'p'}}}}";
    };
    EXPECT_EQ(found("driver-constant", rig("[[0, 0], [1, 0], [2, 0.001]]"), one_property), "");
    EXPECT_EQ(found("driver-constant", rig("[[0, 3], [1, 3], [2, 3]]"), one_property),
              "warning the driver of channel \"a/rotation.x\" cannot change: its curve is flat [a]\n");
}

TEST(CheckDriverConstant, CleanDriverSaysNothing) { EXPECT_EQ(found("driver-constant", driven("1 - x"), one_property), ""); }

}  // namespace ligament::testing
