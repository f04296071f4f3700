// Does `side-unpaired` name what one side alone has?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

const std::string sides = "'sides': [['_l', '_r']]";

std::string unpaired(std::string_view bones, const std::string& rest = sides) { return found("side-unpaired", bones, rest); }

}  // namespace

// Common practice, no source: one side is built, the other is mirrored from it; what was added later is on one side.
TEST(CheckSideUnpaired, NamesABoneAndAPropertyWithoutPartner) {
    EXPECT_EQ(unpaired("{'name': 'lid_l'}, {'name': 'beak'}", sides + ", 'properties': [{'name': 'blink_r', 'on': 'beak'}]"),
              "warning bone \"lid_l\" has no mirror on the other side: there is no bone \"lid_r\" [lid_l]\n"
              "warning property \"blink_r\" has no mirror on the other side: there is no property \"blink_l\" [beak] blink_r\n");
}

TEST(CheckSideUnpaired, NamesAConstraintAndADriverAtTheirPlaces) {
    const Looked looked = look_at(
        "{'name': 'lid_l', 'channels': {'rotation.x': {'expression': '1'}}},\n"
        "{'name': 'lid_r',\n 'constraints': [{'name': 'seat', 'kind': 'rotation', 'from': 'beak'}]}, {'name': 'beak'}",
        sides);
    EXPECT_EQ(found("side-unpaired", looked),
              "warning the driver of channel \"lid_l/rotation.x\" has no mirror on the other side: nothing drives rotation.x of "
              "\"lid_r\" [lid_l]\n"
              "warning constraint \"lid_r/seat\" has no mirror on the other side: \"lid_l\" has no such rotation constraint "
              "[lid_r]\n");
    EXPECT_EQ(first_found("side-unpaired", looked).maker, "lid_l/rotation.x");
    for (const Finding& finding : looked.findings) {
        if (finding.maker != "lid_r/seat") continue;
        EXPECT_EQ(finding.place, looked.rig.bones[1].constraints[0].place);
    }
    EXPECT_EQ(found("side-differs", looked), "") << "nothing is told twice";
}

TEST(CheckSideUnpaired, PartnersAndTheMiddleAreSilent) {
    EXPECT_EQ(unpaired("{'name': 'lid_l'}, {'name': 'lid_r'}, {'name': 'beak'}"), "");
    EXPECT_EQ(unpaired("{'name': 'lid_l'}", ""), "") << "no sides are declared";
    EXPECT_EQ(unpaired("{'name': 'bill_lower'}"), "");
}

// What hangs on a bone without partner is told with it.
TEST(CheckSideUnpaired, ABoneWithoutPartnerIsOneFinding) {
    EXPECT_EQ(unpaired("{'name': 'lid_l', 'channels': {'rotation.x': {'expression': '1'}}, 'constraints': [{'kind': 'rotation', "
                       "'from': 'beak'}]}, {'name': 'beak'}"),
              "warning bone \"lid_l\" has no mirror on the other side: there is no bone \"lid_r\" [lid_l]\n");
}

}  // namespace ligament::testing
