// Does `name-pattern` name the bones that are called otherwise than the rules say?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

const std::string bones =
    "{'name': 'bill_ctl', 'roles': ['control'], 'group': 'face'}, {'name': 'lid', 'roles': ['control'], 'group': "
    "'face'},\n{'name': 'jaw_mech', 'group': 'face'}, {'name': 'skull', 'roles': ['deform', 'control']}";

std::string found_by(const std::vector<NamePattern>& names) {
    Rules rules;
    rules.names = names;
    return found("name-pattern", look_at(tiny_rig(bones), rules));
}

}  // namespace

TEST(CheckNamePattern, NamesBoneRoleAndPatterns) {
    EXPECT_EQ(found_by({{{{}, {}, {Role::control}}, {"*_ctl", "*_aim"}, "animators pick by it", {}}}),
              "warning control bone \"lid\" is not named as control bones are to be: \"*_ctl\" or \"*_aim\" (animators pick by "
              "it) [lid]\n"
              "warning control + deform bone \"skull\" is not named as control bones are to be: \"*_ctl\" or \"*_aim\" "
              "(animators pick by "
              "it) [skull]\n");
}

TEST(CheckNamePattern, EachRuleIsHeldForItself) {
    EXPECT_EQ(
        found_by({{{{"l*"}, {}, {}}, {"*_l"}, "", {}}, {{{}, {"fa?e"}, {Role::control, Role::deform}}, {"*_ctl"}, "", {}}}),
        "warning control bone \"lid\" is not named as bones named \"l*\" are to be: \"*_l\" [lid]\n"
        "warning control bone \"lid\" is not named as control or deform bones of group \"fa?e\" are to be: \"*_ctl\" [lid]\n");
}

TEST(CheckNamePattern, APatternThatGivesNothingIsAboutAllBones) {
    EXPECT_EQ(found_by({{{}, {"*_*", "skull"}, "", {}}}),
              "warning control bone \"lid\" is not named as all bones are to be: \"*_*\" or \"skull\" [lid]\n");
}

TEST(CheckNamePattern, StandsAtTheBoneAndTellsTheRulesApart) {
    Rules rules;
    rules.names = {{{{}, {}, {Role::mechanism}}, {"rig_*"}, "", {}}};
    const Finding finding = first_found("name-pattern", look_at(tiny_rig(bones), rules));
    EXPECT_EQ(finding.place, (Place{2, 1}));
    EXPECT_EQ(finding.maker, "mechanism bones as \"rig_*\"");
}

TEST(CheckNamePattern, NearMissABoneWithoutGroupFitsNoGroup) {
    EXPECT_EQ(found_by({{{{"skull"}, {"*"}, {}}, {"none"}, "", {}}}), "");
}

TEST(CheckNamePattern, CleanWhereAllFit) { EXPECT_EQ(found_by({{{{}, {"face"}, {Role::mechanism}}, {"*_mech"}, "", {}}}), ""); }

TEST(CheckNamePattern, CleanWithoutRules) { EXPECT_EQ(found_by({}), ""); }

}  // namespace ligament::testing
