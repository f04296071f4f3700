// What do drivers, properties and weights come to in a state, and what is unknown?
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "ligament/facts.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

std::string number(double value) {
    if (std::isnan(value)) return "unknown";
    std::string text = std::to_string(value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

Evaluation evaluated(const Rig& rig) { return evaluate(rig, build_dependencies(rig), default_state(rig)); }

/// The values of all properties with theirs at the default, or in another state.
std::string properties_of(const Rig& rig, const State& state) {
    std::string text;
    for (double value : evaluate(rig, build_dependencies(rig), state).properties)
        text += (text.empty() ? "" : " ") + number(value);
    return text;
}
std::string properties_of(const Rig& rig) { return properties_of(rig, default_state(rig)); }

/// A rig of properties alone.
Rig properties(const std::string& list) { return tiny_rig("{'name': 'a'}, {'name': 'b'}", "'properties': [" + list + "]"); }

/// What the weight of a's one constraint comes to, given as JSON, with property p at 0.25 and q at 0.
std::string weight(const std::string& value) {
    const Rig rig =
        tiny_rig("{'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'b', 'weight': " + value + "}]}, {'name': 'b'}",
                 "'properties': [{'name': 'p', 'default': 0.25}, {'name': 'q'}]");
    return number(weight_in(evaluated(rig), rig.bones[0].constraints[0].weight));
}

std::string driven(const std::string& expression) {
    return weight("{'expression': '" + expression +
                  "', 'inputs': {'p': {'property': 'p'}, 'q': {'property': 'q'}, "
                  "'x': {'bone': 'b', 'channel': 'rotation.x'}, 'd': {'distance': ['a', 'b']}, 'g': {'angle': ['a', 'b']}}}");
}

TEST(Evaluate, DefaultStateHasEveryPropertyAtItsDefault) {
    EXPECT_EQ(default_state(properties("{'name': 'p', 'default': 2}, {'name': 'q'}")).properties, (std::vector<double>{2, 0}));
}

TEST(Evaluate, FollowsDrivenPropertiesWhateverTheirOrderInTheFile) {
    const Rig rig = properties(R"({'name': 'c', 'value': {'expression': 'b * 2', 'inputs': {'b': {'property': 'b'}}}},
                                  {'name': 'b', 'value': {'expression': 'a + 1', 'inputs': {'a': {'property': 'a'}}}},
                                  {'name': 'a', 'default': 3})");
    EXPECT_EQ(properties_of(rig), "8 4 3");
    State state = default_state(rig);
    state.properties[2] = 0;
    EXPECT_EQ(properties_of(rig, state), "2 1 0");
    state.properties[0] = 77;  // stands for a driven property, is not read
    EXPECT_EQ(properties_of(rig, state), "2 1 0");
}

TEST(Evaluate, ClampsDrivenPropertiesAndKeepsTheirDriversAsTheyAre) {
    const Rig rig = properties(R"({'name': 'a', 'default': 9, 'max': 10},
                                  {'name': 'b', 'max': 2, 'value': {'expression': 'a', 'inputs': {'a': {'property': 'a'}}}},
                                  {'name': 'c', 'min': 0, 'value': {'expression': '-b', 'inputs': {'b': {'property': 'b'}}}})");
    EXPECT_EQ(properties_of(rig), "9 2 0");
    const Evaluation evaluation = evaluated(rig);
    EXPECT_EQ(evaluation.drivers[rig.properties[1].value->driver], 9);
    EXPECT_EQ(evaluation.drivers[rig.properties[2].value->driver], -2);
}

TEST(Evaluate, LoopsOfPropertiesAreUnknownAndSoIsWhatUsesThem) {
    EXPECT_EQ(properties_of(properties(R"({'name': 'a', 'value': {'expression': 'b', 'inputs': {'b': {'property': 'b'}}}},
                                          {'name': 'b', 'value': {'expression': 'a', 'inputs': {'a': {'property': 'a'}}}},
                                          {'name': 'self', 'value': {'expression': '1', 'inputs': {'s': {'property': 'self'}}}},
                                          {'name': 'uses', 'value': {'expression': 'a', 'inputs': {'a': {'property': 'a'}}}},
                                          {'name': 'spares', 'value': {'expression': '5', 'inputs': {'a': {'property': 'a'}}}})")),
              "unknown unknown unknown unknown 5");
}

TEST(Evaluate, UnknownPropertiesAreNotClamped) {
    EXPECT_EQ(properties_of(properties(R"({'name': 'a', 'min': 0, 'max': 1, 'value': {'expression': '1 / 0', 'inputs': {}}})")),
              "unknown");
}

TEST(Evaluate, CurvesAreLinearBetweenTheirPointsAndFlatOutside) {
    const auto curve = [](double x) {
        return properties_of(
            properties("{'name': 'x', 'default': " + std::to_string(x) +
                       "}, {'name': 'y', 'value': {'curve': [[0, 1], [2, 5], [3, 4]], 'input': {'property': 'x'}}}"));
    };
    EXPECT_EQ(curve(-1), "-1 1");
    EXPECT_EQ(curve(0.5), "0.5 2");
    EXPECT_EQ(curve(2.5), "2.5 4.5");
    EXPECT_EQ(curve(9), "9 4");
}

TEST(Evaluate, WeightsAreClampedAndSnappedNearTheEnds) {
    EXPECT_EQ(weight("0.5"), "0.5");
    EXPECT_EQ(driven("p"), "0.25");
    EXPECT_EQ(driven("p * 8"), "1");
    EXPECT_EQ(driven("p - 1"), "0");
    EXPECT_EQ(driven("1 - q"), "1");
    const Rig rig =
        tiny_rig("{'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'b', 'weight': 0.9999999995}]}, {'name': 'b'}");
    EXPECT_EQ(weight_in(evaluated(rig), rig.bones[0].constraints[0].weight), 1.0);
    Value value;
    value.number = 5e-10;
    EXPECT_EQ(weight_in(Evaluation{}, value), 0.0);
    value.number = 2e-9;
    EXPECT_EQ(weight_in(Evaluation{}, value), 2e-9);
}

TEST(Evaluate, WhatReadsBonesIsUnknown) {
    EXPECT_EQ(driven("x"), "unknown");
    EXPECT_EQ(driven("d"), "unknown");
    EXPECT_EQ(driven("g + p"), "unknown");
    EXPECT_EQ(driven("0 * x"), "unknown") << "used, so unknown";
    EXPECT_EQ(driven("x < 1"), "unknown");
    EXPECT_EQ(driven("p"), "0.25") << "has unknown inputs but does not use them";
}

TEST(Evaluate, WhatIsNotFiniteIsUnknown) {
    EXPECT_EQ(driven("p / q"), "unknown");
    EXPECT_EQ(driven("q / q"), "unknown");
}

}  // namespace
}  // namespace ligament
