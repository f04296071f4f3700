// Does `property-range` name the defaults and stops that lie outside their range?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string found_of(const std::string& property) {
    return found("property-range", "{'name': 'ctl', 'roles': ['control']}",
                 "'properties': [{'name': 'mode', 'on': 'ctl', " + property + "}]");
}

}  // namespace

TEST(CheckPropertyRange, NamesDefaultAndStops) {
    EXPECT_EQ(found_of("'default': 2, 'min': 0, 'max': 1, 'stops': {'ik': -0.5, 'fk': 1, 'both': 1.5}"),
              "warning the default of property \"mode\" is 2, above its max 1 [ctl] mode\n"
              "warning stop \"ik\" of property \"mode\" is -0.5, below its min 0 [ctl] mode\n"
              "warning stop \"both\" of property \"mode\" is 1.5, above its max 1 [ctl] mode\n");
}

TEST(CheckPropertyRange, AMakerTellsTheValuesApart) {
    const Looked looked = look_at("{'name': 'ctl', 'roles': ['control']}",
                                  "'properties': [{'name': 'mode', 'default': 2, 'max': 1, 'stops': {'fk': 3}}]");
    std::string makers;
    for (const Finding& finding : looked.findings)
        if (finding.check == "property-range") makers += finding.maker + "\n";
    EXPECT_EQ(makers, "default\nstop fk\n");
}

TEST(CheckPropertyRange, ADefaultThatIsLeftOutIsZero) {
    EXPECT_EQ(found_of("'min': 1, 'max': 2"), "warning the default of property \"mode\" is 0, below its min 1 [ctl] mode\n");
}

TEST(CheckPropertyRange, NearMissOnTheEdge) {
    EXPECT_EQ(found_of("'default': 1, 'min': 0, 'max': 1, 'stops': {'ik': 0, 'fk': 1}"), "");
}

TEST(CheckPropertyRange, NearMissWithoutRange) { EXPECT_EQ(found_of("'default': 7, 'stops': {'far': -9}"), ""); }

TEST(CheckPropertyRange, NearMissTheDefaultOfADrivenProperty) {
    const std::string driven =
        "'min': 1, 'max': 2, 'value': {'expression': 'x', 'inputs': {'x': {'bone': 'ctl', 'channel': 'position.x'}}}";
    EXPECT_EQ(found_of(driven), "");
    EXPECT_NE(found_of(driven + ", 'stops': {'off': 0}"), "");
}

}  // namespace ligament::testing
