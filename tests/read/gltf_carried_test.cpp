// Does a glTF file carry in `extras.rig` what a rig description says? Source: glTF 2.0 (ISO/IEC 12113:2022), section 3.4 (extras
// hold what an application wants); its keys are those of the rig description.
#include <gtest/gtest.h>

#include "gltf_text.hpp"
#include "same_rig.hpp"
#include "whole_rig.hpp"

namespace ligament::testing {
namespace {

std::string between(std::string_view text, std::string_view first, std::string_view behind) {
    const std::size_t at = text.find(first);
    return std::string(text.substr(at, text.find(behind, at) - at));
}

// A rig that uses every key, cut up and put into nodes.
TEST(gltf_carried, is_all_that_a_rig_description_says) {
    const std::string outer = between(whole_rig, "\"name\": \"marsh", ",\n  \"bones\""),
                      neck = between(whole_rig, "\"tip\": [0, 0.3, 0]", "\n  ]\n}");
    const Rig rig = gltf_rig(
        "'nodes': [{'name': 'tail', 'extras': {'rig': {'roles': ['deform', 'control'], 'from_parent': ['scale', 'position']}}},"
        "{'name': 'root', 'children': [0, 2], 'extras': {'rig': {'roles': ['control'], 'from_parent': []}}},"
        "{'name': 'neck', 'translation': [0.1, -2, 1e-7], 'rotation': [0.5, 0.5, 0.5, 0.5], 'scale': [2, 2, 2], 'extras': "
        "{'rig': "
        "{'roles': ['deform'], 'group': 'neck', " +
        neck + "}}], 'skins': [{'joints': [1, 2], 'name': 'skin'}], 'extras': {'rig': {" + outer + "}}");
    Rig wanted = *read_rig(whole_rig).rig;
    for (Bone& bone : wanted.bones)
        if (!bone.rest) bone.rest = Rest{};                  // nodes always have one
    wanted.bones[0].group = wanted.bones[1].group = "root";  // of the trunk: the tail is no joint
    EXPECT_EQ(RigText(rig).text(), RigText(wanted).text());
}

TEST(gltf_carried, goes_before_what_the_file_says_else) {
    const Rig rig = gltf_rig(
        "'nodes': [{'name': 'a', 'children': [1], 'extras': {'rig': {'roles': []}}}, {'name': 'b', 'children': [2], 'extras': "
        "{'rig': "
        "{'group': 'own'}}}, {'name': 'c', 'extras': {'of_another': 1}}, {'mesh': 0, 'skin': 0, 'name': 'm', 'extras': 5}], "
        "'skins': [{'joints': [0, 1, 2]}], 'extras': {'rig': {'objects': [{'name': 'water'}]}}, " +
        weighted_meshes({{0, 1}}));
    EXPECT_EQ(dump_bones(rig), "a mechanism (a)\nb deform < a (own)\nc mechanism < b (a)\nm mechanism\n");
    ASSERT_EQ(rig.objects.size(), 2);
    EXPECT_EQ(rig.objects[1].name, "skin#0");
}

TEST(gltf_carried, tells_unknown_keys_with_the_nearest_one) {
    EXPECT_EQ(gltf_faults("'nodes': [{'extras': {'rig': {'role': ['control'], 'roles': ['control'], 'grop': 'x'}}}],"
                          "'extras': {'rig': {'propertys': []}}"),
              "/nodes/0/extras/rig/role: unknown key \"role\" in the rig data of a node, nearest is \"roles\"\n"
              "/nodes/0/extras/rig/grop: unknown key \"grop\" in the rig data of a node, nearest is \"group\"\n"
              "/extras/rig/propertys: unknown key \"propertys\" in the rig data of a glTF file, nearest is \"properties\"\n");
}

TEST(gltf_carried, does_not_say_what_the_node_says) {
    EXPECT_EQ(gltf_faults("'nodes': [{'extras': {'rig': {'name': 'a', 'parent': 'b', 'rest': {}}}}],"
                          "'extras': {'rig': {'bones': [], 'format': 'rig-description', 'version': 1}}"),
              "/nodes/0/extras/rig/name: unknown key \"name\" in the rig data of a node\n"
              "/nodes/0/extras/rig/parent: unknown key \"parent\" in the rig data of a node\n"
              "/nodes/0/extras/rig/rest: unknown key \"rest\" in the rig data of a node\n"
              "/extras/rig/bones: unknown key \"bones\" in the rig data of a glTF file\n"
              "/extras/rig/format: unknown key \"format\" in the rig data of a glTF file\n"
              "/extras/rig/version: unknown key \"version\" in the rig data of a glTF file\n");
}

TEST(gltf_carried, faults_have_pointers) {
    EXPECT_EQ(
        gltf_faults("'nodes': [{'name': 'heron', 'extras': {'rig': {'constraints': [{'kind': 'rotation', 'from': ['hern']}, "
                    "{'kind': 'rotaton', 'from': 'heron'}], 'tip': [0, 1], 'channels': {'rotation.w': 1}}}}, {'extras': {'rig': "
                    "3}}], 'extras': {'rig': {'roots': ['x']}}"),
        "/nodes/0/extras/rig/constraints/0/from/0: unknown bone \"hern\", nearest is \"heron\"\n"
        "/nodes/0/extras/rig/constraints/1/kind: unknown kind of constraint \"rotaton\", nearest is \"rotation\"\n"
        "/nodes/0/extras/rig/tip: \"tip\" wants a list of three numbers, found 2\n"
        "/nodes/0/extras/rig/channels/rotation.w: unknown channel \"rotation.w\", nearest is \"rotation.x\"\n"
        "/nodes/1/extras/rig: \"rig\" wants the rig data of a node (an object), found the number 3\n"
        "/extras/rig/roots/0: unknown bone \"x\"\n");
}

// As VRM and the rig description evaluate them.
TEST(gltf_carried, stands_between_constraint_and_spring) {
    EXPECT_EQ(
        dump_constraints(gltf_rig(
            "'nodes': [{'name': 'a', 'children': [1]}, {'name': 'b', 'children': [2], 'extensions': {'VRMC_node_constraint': "
            "{'constraint': {'rotation': {'source': 0}}}}, 'extras': {'rig': {'constraints': [{'kind': 'limit', 'channels': "
            "['scale'], 'range': [0, 1]}, {'kind': 'position', 'name': 'spring', 'from': 'a'}]}}}, {'name': 'c'}], "
            "'extensions': {'VRMC_springBone': {'springs': [{'joints': [{'node': 1}, {'node': 2}]}]}}")),
        "b: rotation1 rotation <- a\nb: limit2 limit final <-\nb: spring position final <- a\nb: spring# custom final | 511 > 56 "
        "\"\" <- a\n");
}

}  // namespace
}  // namespace ligament::testing
