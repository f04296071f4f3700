// What do the constraints and the humanoid of a VRM say? Sources, from memory: VRM 1.0 (VRMC_vrm, VRMC_node_constraint) and VRM
// 0.x (VRM), by their published schemas. That limbs make groups is our own.
#include <gtest/gtest.h>

#include "gltf_text.hpp"
#include "ligament/graph.hpp"

namespace ligament::testing {
namespace {

// Nodes "source" and "owner", the latter with the inside of the extension's object.
std::string owner(const std::string& extension) {
    return "'nodes': [{'name': 'source'}, {'name': 'owner', 'extensions': {'VRMC_node_constraint': {" + extension + "}}}]";
}
std::string constraint_of(const std::string& text) { return dump_constraints(gltf_rig(owner("'constraint': {" + text + "}"))); }

TEST(vrm_constraints, are_of_three_kinds) {
    EXPECT_EQ(constraint_of("'roll': {'source': 0, 'rollAxis': 'Y', 'weight': 0.5}"), "owner: roll1 roll y 0.5 <- source\n");
    EXPECT_EQ(constraint_of("'rotation': {'source': 0, 'weight': 0.25}"), "owner: rotation1 rotation 0.25 <- source\n");
    for (const auto& [word, axis] : {std::pair("PositiveX", "x"),
                                     {"NegativeX", "-x"},
                                     {"PositiveY", "y"},
                                     {"NegativeY", "-y"},
                                     {"PositiveZ", "z"},
                                     {"NegativeZ", "-z"}})
        EXPECT_EQ(constraint_of("'aim': {'source': 0, 'aimAxis': '" + std::string(word) + "'}"),
                  "owner: aim1 aim final " + std::string(axis) + " <- source\n");
    const Rig rig = gltf_rig(owner("'constraint': {'rotation': {'source': 0}}"));
    EXPECT_EQ(pointer_at(rig, rig.bones[1].constraints[0].place), "/nodes/1/extensions/VRMC_node_constraint/constraint/rotation");
}

TEST(vrm_constraints, need_a_source_that_is_another_node) {
    const std::string at = "/nodes/1/extensions/VRMC_node_constraint/constraint/";
    const auto faults = [](const std::string& text) { return gltf_faults(owner("'constraint': {" + text + "}")); };
    EXPECT_EQ(faults("'rotation': {'source': 1}"), at + "rotation/source: node 1 is constrained to itself\n");
    EXPECT_EQ(faults("'roll': {'rollAxis': 'X'}"), at + "roll: a constraint needs \"source\"\n");
    EXPECT_EQ(faults("'aim': {'source': 2, 'aimAxis': 'PositiveX'}"), at + "aim/source: there is no node 2, the file has 2\n");
    EXPECT_EQ(faults("'roll': 7"), at + "roll: \"roll\" wants an object, found the number 7\n");
}

TEST(vrm_constraints, tell_what_is_wrong_with_them) {
    const std::string at = "/nodes/1/extensions/VRMC_node_constraint";
    const auto remarks = [](const std::string& text) { return gltf_remarks(owner(text)); };
    EXPECT_EQ(remarks("'constraint': {'roll': {'source': 0, 'rollAxis': 'X'}, 'rotation': {'source': 0}}"),
              at + "/constraint: broken: a node constraint is one of \"roll\", \"aim\" and \"rotation\", found 2, of which the "
                   "first in this order counts\n");
    EXPECT_EQ(remarks("'constraint': {}"),
              at + "/constraint: broken: a node constraint is one of \"roll\", \"aim\" and \"rotation\", found none\n");
    EXPECT_EQ(remarks(""), at + ": broken: a node constraint is one of \"roll\", \"aim\" and \"rotation\", found none\n");
    EXPECT_EQ(remarks("'constraint': {'roll': {'source': 0, 'rollAxis': 'PositiveX'}}"),
              at + "/constraint/roll/rollAxis: broken: \"rollAxis\" is one of \"X\" to \"Z\", found \"PositiveX\"\n");
    EXPECT_EQ(remarks("'constraint': {'aim': {'source': 0, 'aimAxis': 'Up'}}"),
              at + "/constraint/aim/aimAxis: broken: \"aimAxis\" is one of \"PositiveX\" to \"NegativeZ\", found \"Up\"\n");
    EXPECT_EQ(remarks("'constraint': {'roll': {'source': 0}}"), at + "/constraint/roll: broken: \"rollAxis\" is missing\n");
    const std::string heavy = "'rotation': {'source': 0, 'weight': 1.5}", light = "'rotation': {'source': 0, 'weight': -0.5}";
    EXPECT_EQ(remarks("'constraint': {" + heavy + "}"),
              at + "/constraint/rotation/weight: broken: \"weight\" lies in 0 to 1, found 1.5\n");
    EXPECT_EQ(constraint_of(heavy), "owner: rotation1 rotation <- source\n");
    EXPECT_EQ(constraint_of(light), "owner: rotation1 rotation 0. <- source\n");
}

// Whether what a node's spring writes gets to the owner. VRM 1.0: roll and rotation copy the source's local rotation, an aim
// looks at its place in the world.
bool is_moved_by_spring(const std::string& constraint, int source, Grain grain) {
    const Rig rig = gltf_rig(
        "'nodes': [{'name': 'owner', 'extensions': {'VRMC_node_constraint': {'constraint': {'" + constraint +
        "': {'source': " + std::to_string(source) +
        ", 'rollAxis': 'X', 'aimAxis': 'PositiveX'}}}}}, {'name': 'top', 'children': [2]}, {'name': 'hair', 'children': [3]}, "
        "{'name': 'tip'}], 'extensions': {'VRMC_springBone': {'springs': [{'joints': [{'node': 2}, {'node': 3}]}]}}");
    const Dependencies dependencies = build_dependencies(rig);
    const Graph& graph = dependencies.at(rig, grain);
    std::vector<bool> is_seen(graph.vertices.size(), false);
    std::vector<VertexId> open;
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        if (graph.vertices[v].kind == VertexKind::final && graph.vertices[v].element == 0) open.push_back(v);
    EXPECT_FALSE(open.empty());
    while (!open.empty()) {
        const VertexId v = open.back();
        open.pop_back();
        // At channel grain the step's position and scale go through it as they are.
        if (graph.vertices[v].kind == VertexKind::constraint &&
            (grain == Grain::step || graph.vertices[v].channel == static_cast<std::uint8_t>(Part::rotation)) &&
            ligament::constraint_of(rig, dependencies, graph.vertices[v].element).name == "spring")
            return true;
        for (const Edge& edge : graph.needs(v)) {
            if (is_seen[edge.from]) continue;
            is_seen[edge.from] = true;
            open.push_back(edge.from);
        }
    }
    return false;
}

TEST(vrm_constraints, read_local_rotations_but_for_aims) {
    constexpr int hair = 2, tip = 3;
    for (const int source : {hair, tip}) {
        EXPECT_FALSE(is_moved_by_spring("roll", source, Grain::channel)) << source;
        EXPECT_FALSE(is_moved_by_spring("rotation", source, Grain::channel)) << source;
    }
    EXPECT_TRUE(is_moved_by_spring("aim", tip, Grain::channel));
    EXPECT_FALSE(is_moved_by_spring("aim", hair, Grain::channel));  // a spring turns its node and leaves it where it is
    EXPECT_TRUE(is_moved_by_spring("aim", hair, Grain::step));
}

const std::string bird =
    "'nodes': [{'name': 'hips', 'children': [1, 4]}, {'name': 'neck', 'children': [2]}, {'name': 'head', 'children': [3]}, "
    "{'name': "
    "'hair'}, {'name': 'wing', 'children': [5]}, {'name': 'thumb', 'children': [6]}, {'name': 'claw'}, {'name': 'perch'}]";

TEST(vrm_humanoid, limbs_make_groups) {
    const std::string groups =
        "hips control (torso)\nneck mechanism < hips (torso)\nhead control < neck (head)\nhair mechanism < head (head)\n"
        "wing control < hips (right arm)\nthumb control < wing (right hand)\nclaw mechanism < thumb (right hand)\nperch "
        "mechanism\n";
    EXPECT_EQ(dump_bones(gltf_rig(bird + ", 'extensions': {'VRMC_vrm': {'humanoid': {'humanBones': {'hips': {'node': 0}, 'head': "
                                         "{'node': 2}, 'rightUpperArm': {'node': 4}, 'rightThumbMetacarpal': {'node': 5}}}}}")),
              groups);
    EXPECT_EQ(
        dump_bones(gltf_rig(bird + ", 'extensions': {'VRM': {'humanoid': {'humanBones': [{'bone': 'hips', 'node': 0}, {'bone': "
                                   "'head', 'node': 2}, {'bone': 'rightUpperArm', 'node': 4}, {'bone': 'rightThumbIntermediate', "
                                   "'node': 5}]}}}")),
        groups);
}

TEST(vrm_humanoid, bones_are_of_these_limbs) {
    for (const auto& [bone, limb] : {std::pair("upperChest", "torso"),
                                     {"jaw", "head"},
                                     {"leftEye", "head"},
                                     {"leftShoulder", "left arm"},
                                     {"rightHand", "right arm"},
                                     {"leftLittleDistal", "left hand"},
                                     {"rightToes", "right leg"},
                                     {"leftUpperLeg", "left leg"}})
        EXPECT_EQ(gltf_rig("'nodes': [{}], 'extensions': {'VRMC_vrm': {'humanoid': {'humanBones': {'" + std::string(bone) +
                           "': {'node': 0}}}}}")
                      .bones[0]
                      .group,
                  limb);
}

TEST(vrm_humanoid, tells_what_is_wrong_with_its_bones) {
    EXPECT_EQ(
        gltf_remarks("'nodes': [{'name': 'a'}], 'extensions': {'VRMC_vrm': {'humanoid': {'humanBones': {'wing': {'node': 0}, "
                     "'hips': {'node': 0}, 'spine': {'node': 0}, 'leftThumbTip': {'node': 0}}}}}"),
        "/extensions/VRMC_vrm/humanoid/humanBones/wing: broken: unknown humanoid bone \"wing\"\n"
        "/extensions/VRMC_vrm/humanoid/humanBones/spine/node: broken: node 0 is two humanoid bones, the second is \"spine\" [a]\n"
        "/extensions/VRMC_vrm/humanoid/humanBones/leftThumbTip: broken: unknown humanoid bone \"leftThumbTip\"\n");
    EXPECT_EQ(gltf_remarks("'nodes': [{}], 'extensions': {'VRM': {'humanoid': {'humanBones': [{'bone': 'Hips', 'node': 0}]}}}"),
              "/extensions/VRM/humanoid/humanBones/0: broken: unknown humanoid bone \"Hips\"\n");
    EXPECT_EQ(gltf_faults("'nodes': [{}], 'extensions': {'VRMC_vrm': {'humanoid': {'humanBones': {'hips': {'node': 1}}}}}"),
              "/extensions/VRMC_vrm/humanoid/humanBones/hips/node: there is no node 1, the file has 1\n");
}

TEST(vrm, of_two_versions_is_read_by_the_newer_one) {
    const Rig rig = gltf_rig(
        "'nodes': [{'name': 'a', 'children': [1]}, {'name': 'b', 'children': [2]}, {'name': 'c'}], 'extensions': {"
        "'VRM': {'humanoid': {'humanBones': [{'bone': 'hips', 'node': 0}, {'bone': 'jaw', 'node': 2}]}, 'secondaryAnimation': "
        "{'boneGroups': [{'comment': 'older', 'bones': [1]}]}}, 'VRMC_vrm': {'humanoid': {'humanBones': {'hips': {'node': 0}}}}, "
        "'VRMC_springBone': {'springs': [{'name': 'newer', 'joints': [{'node': 1}, {'node': 2}]}]}}");
    EXPECT_EQ(dump_remarks(rig), "/extensions/VRM: extension: not looked at: \"VRM\", since the file has VRM 1.0 too\n");
    EXPECT_EQ(dump_bones(rig), "a control (torso)\nb mechanism < a (torso)\nc mechanism < b (torso)\n");
    EXPECT_EQ(dump_constraints(rig), "b: spring custom final | 511 > 56 \"newer\" <- a\n");
}

TEST(vrm, extensions_that_are_not_looked_at_are_named) {
    EXPECT_EQ(gltf_remarks("'nodes': [{}], 'extensionsUsed': ['KHR_lights_punctual', 'VRMC_vrm', 'VRMC_materials_mtoon', 'VRM', "
                           "'KHR_draco_mesh_compression']"),
              "/extensionsUsed: extension: not looked at: \"KHR_lights_punctual\", \"VRMC_materials_mtoon\"\n");
    EXPECT_EQ(gltf_remarks("'nodes': [{}], 'extensionsUsed': ['VRMC_springBone', 'VRMC_node_constraint']"), "");
}

}  // namespace
}  // namespace ligament::testing
