// Does `layer-rule` name the dependences that the rules forbid, and the bones that lack a required one?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

using Says = LayerRule::Says;

const std::string bones =
    "{'name': 'body_ctl', 'roles': ['control'], 'group': 'body'}, {'name': 'face_ctl', 'roles': ['control'], 'group': 'face'},\n"
    "{'name': 'jaw', 'roles': ['deform'], 'constraints': [\n  {'name': 'seat', 'kind': 'transform', 'from': 'face_ctl'}]},\n"
    "{'name': 'crop', 'roles': ['deform'], 'constraints': [{'name': 'swell', 'kind': 'scale', 'from': 'body_ctl'}]}";

const BonePattern face{{}, {"face*"}, {}}, body{{}, {"body"}, {}}, deform{{}, {}, {Role::deform}},
    control{{}, {}, {Role::control}}, jaw{{"jaw"}, {}, {}};

Looked look(const std::vector<LayerRule>& layers, const std::string& of = bones, const std::string& rest = "") {
    Rules rules;
    rules.layers = layers;
    return look_at(tiny_rig(of, rest), rules);
}

std::string found_by(const std::vector<LayerRule>& layers, const std::string& of = bones, const std::string& rest = "") {
    return found("layer-rule", look(layers, of, rest));
}

}  // namespace

TEST(CheckLayerRule, NamesTheBonesTheMakerAndTheRule) {
    const Looked looked = look({{face, deform, Says::forbidden, "skin reads mechanism bones", {}}});
    EXPECT_EQ(found("layer-rule", looked),
              "warning \"jaw\" depends on \"face_ctl\", by constraint \"jaw/seat\"; the rule \"skin reads mechanism bones\" "
              "forbids it: "
              "from bones of group \"face*\" to deform bones [face_ctl jaw]\n");
    const Finding finding = first_found("layer-rule", looked);
    EXPECT_EQ(finding.place, (Place{3, 3}));
    EXPECT_EQ(finding.maker, "jaw/seat, bones of group \"face*\" to deform bones");
}

TEST(CheckLayerRule, TheFirstRuleThatFitsDecides) {
    const LayerRule no{control, deform, Says::forbidden, "", {}}, may{face, deform, Says::allowed, "", {}};
    EXPECT_EQ(found_by({may, no}),
              "warning \"crop\" depends on \"body_ctl\", by constraint \"crop/swell\"; the rule forbids it: from "
              "control bones to deform bones [body_ctl crop]\n");
    EXPECT_EQ(
        found_by({no, may}),
        "warning \"jaw\" depends on \"face_ctl\", by constraint \"jaw/seat\"; the rule forbids it: from control bones to deform "
        "bones [face_ctl jaw]\n"
        "warning \"crop\" depends on \"body_ctl\", by constraint \"crop/swell\"; the rule forbids it: from control bones to "
        "deform "
        "bones [body_ctl crop]\n");
}

TEST(CheckLayerRule, ARequiredRuleDoesNotDecideWhatIsForbidden) {
    EXPECT_NE(found_by({{face, jaw, Says::required, "", {}}, {face, deform, Says::forbidden, "", {}}}), "");
}

TEST(CheckLayerRule, GoesThroughPropertiesAndDrivers) {
    EXPECT_EQ(
        found_by({{face, body, Says::forbidden, "", {}}},
                 "{'name': 'slide', 'roles': ['control'], 'group': 'face'}, {'name': 'crop', 'group': 'body', 'channels': "
                 "{'scale.x': {'expression': 'f', 'inputs': {'f': {'property': 'fill'}}}}}",
                 "'properties': [{'name': 'fill', 'value': {'expression': 's', 'inputs': {'s': {'bone': 'slide', 'channel': "
                 "'position.y'}}}}]"),
        "warning \"crop\" depends on \"slide\", by driver \"fill\" and driver \"crop/scale.x\"; the rule forbids it: from bones "
        "of "
        "group \"face*\" to bones of group \"body\" [slide crop]\n");
}

TEST(CheckLayerRule, NamesTheBoneThatLacksARequiredOne) {
    const Looked looked = look({{face, deform, Says::required, "all skin is the face's", {}}});
    EXPECT_EQ(
        found("layer-rule", looked),
        "warning \"crop\" depends on none of the bones that the rule \"all skin is the face's\" requires: from bones of group "
        "\"face*\" to deform bones [crop]\n");
    EXPECT_EQ(first_found("layer-rule", looked).maker, "bones of group \"face*\" to deform bones");
    EXPECT_EQ(first_found("layer-rule", looked).place, (Place{4, 1}));
}

TEST(CheckLayerRule, ARequiredDependenceIsADirectOne) {
    const std::string chain =
        "{'name': 'ctl', 'roles': ['control']}, {'name': 'mech', 'parent': 'ctl'}, {'name': 'd', 'roles': ['deform'], "
        "'parent': 'mech'}";
    EXPECT_NE(found_by({{control, deform, Says::required, "", {}}}, chain), "");
    EXPECT_EQ(found_by({{{{}, {}, {Role::mechanism}}, deform, Says::required, "", {}}}, chain), "");
}

TEST(CheckLayerRule, NearMissTheOtherDirection) { EXPECT_EQ(found_by({{deform, face, Says::forbidden, "", {}}}), ""); }

TEST(CheckLayerRule, NearMissInertOnes) {
    const std::string off =
        "{'name': 'face_ctl', 'roles': ['control']}, {'name': 'jaw', 'roles': ['deform'], 'constraints': [{'kind': "
        "'rotation', 'from': 'face_ctl', 'enabled': false}]}";
    EXPECT_EQ(found_by({{control, deform, Says::forbidden, "", {}}}, off), "");
    EXPECT_NE(found_by({{control, deform, Says::required, "", {}}}, off), "");
}

TEST(CheckLayerRule, CleanWithoutRules) { EXPECT_EQ(found_by({}), ""); }

}  // namespace ligament::testing
