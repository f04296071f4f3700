// Does a property's fan-out count what it reaches through drivers, and the bones that move with it?
#include <gtest/gtest.h>

#include <string>

#include "ligament/facts.hpp"
#include "naive_graph.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

template <class Name>
std::string list(const char* title, const std::vector<std::uint32_t>& ids, Name name) {
    std::string text;
    for (std::uint32_t id : ids) text += (text.empty() ? title : " ") + std::string(name(id));
    return text;
}

/// "p: weights 1, channels 0, properties q, constraints a/c, bones 2", one line a property.
std::string dump(const Rig& rig) {
    const Dependencies dependencies = build_dependencies(rig);
    std::string text;
    for (const FanOut& fan_out : find_fan_out(rig, dependencies)) {
        text += text.empty() ? "" : "\n";
        text += rig.properties[fan_out.property].name + ": weights " + std::to_string(fan_out.weights.size()) + ", channels " +
                std::to_string(fan_out.channels.size());
        text += list(", properties ", fan_out.properties, [&](PropertyId p) { return rig.properties[p].name; });
        text += list(", constraints ", fan_out.constraints, [&](ConstraintId id) {
            return rig.bones[dependencies.constraints[id].bone].name + "/" + constraint_of(rig, dependencies, id).name;
        });
        text +=
            list(", bones ", find_bones_moved(rig, dependencies, fan_out.property), [&](BoneId b) { return rig.bones[b].name; });
        EXPECT_EQ(find_bones_moved(rig, dependencies, fan_out.property).size(), fan_out.bones_moved);
        EXPECT_EQ(fan_out.targets(), fan_out.weights.size() + fan_out.channels.size() + fan_out.properties.size());
    }
    return text;
}

const std::string driven_by_p = "{'expression': 'p', 'inputs': {'p': {'property': 'p'}}}";

TEST(FanOut, CountsWeightsOfConstraintsAndSourcesAndTheBonesBehindThem) {
    EXPECT_EQ(
        dump(tiny_rig("{'name': 'a', 'constraints': [{'name': 'c', 'kind': 'scale', 'from': 'm', 'weight': " + driven_by_p +
                          "}, {'name': 'd', 'kind': 'scale', 'from': [{'bone': 'm', 'weight': " + driven_by_p +
                          "}, {'bone': 'm', 'weight': " + driven_by_p + "}]}]}, {'name': 'm'}, {'name': 'child', 'parent': 'a'}",
                      "'properties': [{'name': 'p'}, {'name': 'unused'}]")),
        "p: weights 3, channels 0, constraints a/c a/d, bones a child\nunused: weights 0, channels 0");
}

TEST(FanOut, CountsDrivenChannels) {
    EXPECT_EQ(dump(tiny_rig("{'name': 'a', 'channels': {'rotation.x': " + driven_by_p + ", 'rotation.y': " + driven_by_p + "}}",
                            "'properties': [{'name': 'p'}]")),
              "p: weights 0, channels 2, bones a");
}

TEST(FanOut, GoesOnThroughDrivenProperties) {
    EXPECT_EQ(dump(tiny_rig(R"({'name': 'a', 'channels': {'scale.x': {'expression': 'q', 'inputs': {'q': {'property': 'q'}}}}})",
                            "'properties': [{'name': 'p'}, {'name': 'q', 'value': " + driven_by_p + "}]")),
              "p: weights 0, channels 1, properties q, bones a\nq: weights 0, channels 1, bones a");
}

TEST(FanOut, DoesNotCountThePropertyItselfInALoop) {
    EXPECT_EQ(dump(tiny_rig("{'name': 'a'}",
                            "'properties': [{'name': 'p', 'value': {'expression': 'q', 'inputs': {'q': {'property': 'q'}}}}, "
                            "{'name': 'q', 'value': " +
                                driven_by_p + "}]")),
              "p: weights 0, channels 0, properties q\nq: weights 0, channels 0, properties p");
}

TEST(FanOut, GoesThroughBonesOnlyForTheBonesMoved) {
    // p moves a; b's driver reads a.
    EXPECT_EQ(dump(tiny_rig("{'name': 'a', 'channels': {'rotation.x': " + driven_by_p + R"(}}, {'name': 'b', 'channels':
                                {'rotation.x': {'expression': 'x', 'inputs': {'x': {'bone': 'a', 'channel': 'rotation.x'}}}}})",
                            "'properties': [{'name': 'p'}]")),
              "p: weights 0, channels 1, bones a b");
}

TEST(FanOut, LeavesOutTargetsInsideInertConstraints) {
    EXPECT_EQ(dump(tiny_rig(
                  "{'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'm', 'enabled': false, 'weight': " + driven_by_p +
                      "}, {'kind': 'scale', 'weight': 0, 'from': {'bone': 'm', 'weight': " + driven_by_p + "}}]}, {'name': 'm'}",
                  "'properties': [{'name': 'p'}]")),
              "p: weights 0, channels 0");
}

TEST(FanOut, ADriverThatReadsAPropertyTwiceCountsOnce) {
    EXPECT_EQ(dump(tiny_rig(R"({'name': 'a', 'channels': {'scale.x': {'expression': 'x + y', 'inputs':
                                {'x': {'property': 'p'}, 'y': {'property': 'p'}}}}})",
                            "'properties': [{'name': 'p'}]")),
              "p: weights 0, channels 1, bones a");
}

TEST(FanOut, ACurveMovesItsBone) {
    EXPECT_EQ(dump(tiny_rig("{'name': 'a', 'curve': {'segments': 2, 'start': 'h'}}, {'name': 'h', 'channels': {'scale.x': " +
                                driven_by_p + "}}",
                            "'properties': [{'name': 'p'}]")),
              "p: weights 0, channels 1, bones a h");
}

// So many properties over the whole rig that the later ones are counted side by side.
TEST(FanOut, CountsManyPropertiesSideBySideAsOneByOne) {
    testing::Random random(11);
    Rig rig;
    rig.bones.resize(60);
    for (BoneId b = 1; b < 60; ++b) rig.bones[b].parent = random.below(3) == 0 ? random.below(b) : b - 1;
    for (PropertyId p = 0; p < 600; ++p) {
        rig.properties.emplace_back();
        ChannelValue& channel = rig.bones[random.below(60)].channels.emplace_back();
        channel.channel = static_cast<std::uint8_t>(random.below(9));
        channel.value.driver = static_cast<DriverId>(rig.drivers.size());
        Driver& driver = rig.drivers.emplace_back();
        driver.expression = "p";
        driver.inputs.emplace_back().name = "p";
        driver.inputs.back().property = p;
    }
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<FanOut> fan_outs = find_fan_out(rig, dependencies);
    ASSERT_EQ(fan_outs.size(), 600u);
    for (const FanOut& fan_out : fan_outs)
        EXPECT_EQ(fan_out.bones_moved, find_bones_moved(rig, dependencies, fan_out.property).size()) << fan_out.property;
}

}  // namespace
}  // namespace ligament
