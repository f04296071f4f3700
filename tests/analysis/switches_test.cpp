// Which properties are switches, and how are their states called?
#include <gtest/gtest.h>

#include "ligament/switches.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

std::string weighted(const std::string& name, const std::string& weight) {
    return "{'name': '" + name + "', 'kind': 'transform', 'from': 'a', 'weight': " + weight + "}";
}

std::string by(const std::string& property) { return "{'expression': 's', 'inputs': {'s': {'property': '" + property + "'}}}"; }

std::string switch_words(const Rig& rig) {
    const std::vector<Switch> switches = find_switches(rig, build_dependencies(rig));
    std::string words;
    for (std::uint32_t s = 0; s < switches.size(); ++s) {
        words += words.empty() ? "" : "; ";
        for (std::uint32_t stop = 0; stop < switches[s].stops.size(); ++stop)
            words += (stop > 0 ? " " : "") + name_of(rig, switches, Setting{s, stop});
    }
    return words;
}

TEST(Switches, ReachWeightsStraightOrThroughDrivenProperties) {
    EXPECT_EQ(
        switch_words(tiny_rig(
            "{'name': 'a'}, {'name': 'b', 'constraints': [" + weighted("x", by("p")) + ", " + weighted("y", by("mid")) + "]}",
            "'properties': [{'name': 'p'}, {'name': 'unused'}, {'name': 'mid', 'value': " + by("top") + "}, {'name': 'top'}]")),
        "p=0 p=1; top=0 top=1");
}

TEST(Switches, ReachSourceWeightsToo) {
    EXPECT_EQ(
        switch_words(tiny_rig("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'space', 'from': [{'bone': 'a', 'weight': " +
                                  by("p") + "}]}]}",
                              "'properties': [{'name': 'p'}]")),
        "p=0 p=1");
}

TEST(Switches, AreNotWhatDrivesChannelsOrInertConstraintsOnly) {
    EXPECT_EQ(switch_words(tiny_rig(
                  "{'name': 'a', 'channels': {'rotation.x': " + by("p") +
                      "}}, {'name': 'b', 'constraints': [{'kind': 'transform', 'from': 'a', 'enabled': false, 'weight': " +
                      by("q") + "}]}",
                  "'properties': [{'name': 'p'}, {'name': 'q'}]")),
              "");
}

TEST(Switches, StopAtNamedValuesElseAtMinAndMax) {
    const auto stops = [](const std::string& property) {
        return switch_words(tiny_rig("{'name': 'a'}, {'name': 'b', 'constraints': [" + weighted("x", by("p")) + "]}",
                                     "'properties': [" + property + "]"));
    };
    EXPECT_EQ(stops("{'name': 'p', 'stops': {'ik': 0, 'fk': 1, 'half': 0.5}, 'max': 1}"), "p=ik p=fk p=half");
    EXPECT_EQ(stops("{'name': 'p', 'min': -0.5, 'max': 2}"), "p=-0.5 p=2");
    EXPECT_EQ(stops("{'name': 'p', 'max': 3}"), "p=0 p=3");
}

TEST(Switches, NameTheDefaultStateAndCombinations) {
    const Rig rig =
        tiny_rig("{'name': 'a'}, {'name': 'b', 'constraints': [" + weighted("x", by("p")) + ", " + weighted("y", by("q")) + "]}",
                 "'properties': [{'name': 'p'}, {'name': 'q', 'stops': {'up': 1}}]");
    const std::vector<Switch> switches = find_switches(rig, build_dependencies(rig));
    EXPECT_EQ(name_of(rig, switches, Settings{}), "default");
    EXPECT_EQ(name_of(rig, switches, Settings{{0, 1}, {1, 0}}), "p=1 + q=up");
    EXPECT_EQ(state_of(rig, switches, Settings{{0, 1}, {1, 0}}).properties, (std::vector<double>{1, 1}));
    EXPECT_EQ(state_of(rig, switches, {}).properties, (std::vector<double>{0, 0}));
    EXPECT_EQ(setting_name(rig, 1, 1), "q=up");
    EXPECT_EQ(setting_name(rig, 1, 0.25), "q=0.25");
    EXPECT_EQ(setting_name(rig, 0, 0), "p=0");
}

}  // namespace
}  // namespace ligament
