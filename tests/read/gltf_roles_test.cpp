// Which roles and groups do the nodes of a glTF file get, and what is said of joints that deform nothing? What is a control, a
// group and a root is our own; joints and weights are those of glTF 2.0 (ISO/IEC 12113:2022), section 3.7.3, animated properties
// those of section 3.11.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

#include "gltf_text.hpp"
#include "patterns.hpp"

namespace ligament::testing {
namespace {

std::string bones_of(const std::string& text) { return dump_bones(gltf_rig(text)); }

std::string roots_of(const std::string& text) {
    const Rig rig = gltf_rig(text);
    if (!rig.roots) return "not told";
    std::string names;
    for (const BoneId root : *rig.roots) names += rig.bones[root].name + " ";
    return names;
}

std::string channel(int node, const std::string& path) {
    return "{'target': {'node': " + std::to_string(node) + ", 'path': '" + path + "'}}";
}

// root > hip > knee > toe, root > helper; hip and knee are weighted.
const std::string leg =
    "'nodes': [{'name': 'root', 'children': [1, 4]}, {'name': 'hip', 'children': [2]}, {'name': 'knee', 'children': [3]}, "
    "{'name': 'toe'}, {'name': 'helper'}, {'name': 'body', 'mesh': 0, 'skin': 0}], 'skins': [{'joints': [0, 1, 2, 3, 4]}], " +
    weighted_meshes({{1, 2}});

TEST(gltf_roles, controls_are_what_animations_move) {
    // "weights" are those of morph targets; a channel may have no node, for extensions.
    EXPECT_EQ(bones_of("'nodes': [{'name': 'a'}, {'name': 'b'}, {'name': 'c'}, {'name': 'd'}, {'name': 'e'}], 'animations': [{}, "
                       "{'channels': [" +
                       channel(0, "translation") + ", " + channel(1, "weights") + ", " + channel(2, "rotation") +
                       ", {'target': {'path': 'rotation'}}]}, {'channels': [" + channel(3, "scale") + ", " +
                       channel(4, "pointer") + "]}]"),
              "a control (a)\nb mechanism (b)\nc control (c)\nd control (d)\ne mechanism (e)\n");
    EXPECT_EQ(bones_of(leg + ", 'animations': [{'channels': [" + channel(2, "rotation") + ", " + channel(4, "scale") + "]}]"),
              "root mechanism (root)\nhip deform < root (hip)\nknee control + deform < hip (hip)\ntoe mechanism < knee (hip)\n"
              "helper control < root (root)\nbody mechanism\n");
}

TEST(gltf_roles, controls_are_the_bones_of_a_humanoid) {
    // With what animations move, and then no topmost joint.
    const std::string humanoid = "'extensions': {'VRMC_vrm': {'humanoid': {'humanBones': {'hips': {'node': 1}}}}}";
    EXPECT_EQ(bones_of(leg + ", " + humanoid + ", 'animations': [{'channels': [" + channel(4, "scale") + "]}]"),
              "root mechanism\nhip control + deform < root (torso)\nknee deform < hip (torso)\ntoe mechanism < knee (torso)\n"
              "helper control < root\nbody mechanism\n");
}

TEST(gltf_roles, controls_are_topmost_joints_else) {
    EXPECT_EQ(
        bones_of(leg),
        "root control (root)\nhip deform < root (hip)\nknee deform < hip (hip)\ntoe mechanism < knee (hip)\nhelper mechanism "
        "< root (root)\nbody mechanism\n");
    // A node between two joints hides nothing.
    EXPECT_EQ(bones_of("'nodes': [{'name': 'a', 'children': [1]}, {'name': 'b', 'children': [2]}, {'name': 'c'}, {'name': 'd'}], "
                       "'skins': [{'joints': [0, 2]}, {'joints': [3, 2]}]"),
              "a control (a)\nb mechanism < a (a)\nc mechanism < b (a)\nd control (d)\n");
}

TEST(gltf_roles, joints_without_weights_are_told_apart) {
    EXPECT_EQ(gltf_remarks(leg),
              "/nodes/0: joint: 1 joint only carries weighted joints, no vertex is weighted to it [root]\n"
              "/nodes/3: joint: 1 joint is an end tip, no vertex is weighted to it, only to the joint above [toe]\n"
              "/nodes/4: joint: 1 joint is neither end tip nor above weighted joints, no vertex is weighted to it [helper]\n");
    // Tips may hang by a node that is no joint; of two joints without weights in a row the last one is no tip.
    EXPECT_EQ(gltf_remarks("'nodes': [{'name': 'a', 'children': [1, 3]}, {'name': 'b', 'children': [2]}, {'name': 'tip'}, "
                           "{'name': 'tip2'}, {'name': 'up', 'children': [5]}, {'name': 'up2', 'children': [0, 6]}, "
                           "{'name': 'c', 'children': [7]}, {'name': 'd'}, {'mesh': 0, 'skin': 0}], "
                           "'skins': [{'joints': [0, 2, 3, 4, 5, 6, 7]}], " +
                           weighted_meshes({{0}})),
              "/nodes/2: joint: 2 joints are end tips, no vertex is weighted to them, only to the joint above [tip tip2]\n"
              "/nodes/4: joint: 2 joints only carry weighted joints, no vertex is weighted to them [up up2]\n"
              "/nodes/6: joint: 2 joints are neither end tip nor above weighted joints, no vertex is weighted to them [c d]\n");
    EXPECT_EQ(gltf_remarks("'nodes': [{'mesh': 0, 'skin': 0}, {}], 'skins': [{'joints': [1]}], " + weighted_meshes({{0}})), "");
}

TEST(gltf_roles, skins_are_objects) {
    const Rig rig = gltf_rig(
        "'nodes': [{'name': 'a'}, {'name': 'b'}, {'name': 'c'}, {'mesh': 0, 'skin': 0}, {'mesh': 1, 'skin': 1}], "
        "'skins': [{'joints': [1, 0, 1]}, {'joints': [0, 2], 'name': 'legs'}], " +
        weighted_meshes({{0}, {1}}));
    ASSERT_EQ(rig.objects.size(), 2);
    EXPECT_EQ(rig.objects[0].name, "skin#0");
    EXPECT_EQ(rig.objects[0].follows, (std::vector<BoneId>{1, 0}));  // each once
    EXPECT_EQ(rig.objects[1].name, "legs");
    EXPECT_EQ(rig.objects[1].follows, (std::vector<BoneId>{0, 2}));
    EXPECT_EQ(pointer_at(rig, rig.objects[1].place), "/skins/1");
    // Weighted in one of its skins is enough.
    EXPECT_EQ(rig.bones[0].deform, false);
    EXPECT_EQ(rig.bones[1].deform, true);
    EXPECT_EQ(rig.bones[2].deform, true);
}

// The trunk: root, spine. Branches that bear joints and are no single node make groups, with all below them.
TEST(gltf_groups, are_branches_below_the_trunk) {
    EXPECT_EQ(
        bones_of("'nodes': [{'name': 'root', 'children': [1, 7]}, {'name': 'spine', 'children': [2, 4, 6]}, {'name': 'arm', "
                 "'children': [3]}, {'name': 'hand'}, {'name': 'leg', 'children': [5]}, {'name': 'foot', 'children': [9]}, "
                 "{'name': 'tail'}, {'name': 'prop', 'children': [8]}, {'name': 'lamp'}, {'name': 'shoe'}, {'name': 'mesh', "
                 "'children': [11]}, {'name': 'part'}], 'skins': [{'joints': [3, 4, 6]}]"),
        "root mechanism (spine)\nspine mechanism < root (spine)\narm mechanism < spine (arm)\nhand control < arm (arm)\n"
        "leg control < spine (leg)\nfoot mechanism < leg (leg)\ntail control < spine (spine)\nprop mechanism < root (spine)\n"
        "lamp mechanism < prop (spine)\nshoe mechanism < foot (leg)\nmesh mechanism\npart mechanism < mesh\n");
}

TEST(gltf_groups, of_flat_skins_are_one) {
    EXPECT_EQ(
        bones_of(
            "'nodes': [{'name': 'rack', 'children': [1, 2, 3]}, {'name': 'a'}, {'name': 'b'}, {'name': 'c'}, {'name': 'lone'}], "
            "'skins': [{'joints': [1, 2, 3, 4]}]"),
        "rack mechanism (rack)\na control < rack (rack)\nb control < rack (rack)\nc control < rack (rack)\nlone control "
        "(lone)\n");
}

TEST(gltf_roots, are_controls_above_all_deform_bones) {
    const auto animated = [](std::vector<int> nodes) {
        std::string channels;
        for (const int node : nodes) channels += (channels.empty() ? "" : ", ") + channel(node, "rotation");
        return leg + ", 'animations': [{'channels': [" + channels + "]}]";
    };
    EXPECT_EQ(roots_of(leg), "root ");
    EXPECT_EQ(roots_of(animated({0, 1, 4, 5})), "root ");  // the hip deforms itself
    EXPECT_EQ(roots_of(animated({1, 4})), "");             // told that there is none
    EXPECT_EQ(roots_of(animated({0}) + ", 'extensions': {'VRM': {'humanoid': {'humanBones': [{'bone': 'hips', 'node': 0}]}}}"),
              "");
    // Two trees: none is above all.
    EXPECT_EQ(
        roots_of("'nodes': [{'children': [1]}, {}, {'children': [3]}, {}, {'mesh': 0, 'skin': 0}], 'skins': [{'joints': [0, 1, "
                 "2, 3]}], " +
                 weighted_meshes({{1, 3}})),
        "");
    EXPECT_EQ(roots_of("'nodes': [{}]"), "");
    EXPECT_EQ(roots_of("'nodes': [{}, {'extras': {'rig': {'roles': ['control']}}}]"), "not told");
}

TEST(chosen_controls, are_those_whose_names_match) {
    const std::string path =
        (std::filesystem::temp_directory_path() / ("ligament_controls_" + std::to_string(::getpid()) + ".gltf")).string();
    std::ofstream(path, std::ios::binary) << gltf_text(leg);
    const auto read_with = [&](std::vector<std::string> patterns) {
        const ReadResult result = read_rig_file(path, {.controls = std::move(patterns)});
        std::string text;
        if (result.rig)
            for (const Bone& bone : result.rig->bones) text += bone.control ? bone.name + " " : "";
        for (const Fault& fault : result.faults) text += fault.message + "\n";
        EXPECT_EQ(result.rig.has_value(), result.faults.empty());
        return text;
    };
    EXPECT_EQ(read_with({}), "root ");
    EXPECT_EQ(read_with({"h*", "toe"}), "hip toe helper ");
    EXPECT_EQ(read_with({"?oe", "[a-c]*"}), "toe body ");
    EXPECT_EQ(read_with({"Toe", "h*", "x"}),
              "no bone is called like the controls asked for, \"Toe\"\nno bone is called like the controls asked for, \"x\"\n");
    std::remove(path.c_str());
}

TEST(chosen_controls, tell_which_are_root_controls) {
    const ReadResult chosen = read_gltf(gltf_text(leg), "leg.gltf", {.controls = {"root", "toe"}});
    ASSERT_TRUE(chosen.rig);
    EXPECT_EQ(*chosen.rig->roots, std::vector<BoneId>{0});
    const ReadResult below = read_gltf(gltf_text(leg), "leg.gltf", {.controls = {"toe"}});
    EXPECT_TRUE(below.rig->roots->empty());
}

TEST(chosen_controls, are_matched_by_characters) {  // POSIX.1-2017, section 2.13, in UTF-8
    const ReadResult result = read_rig(R"({"format": "rig-description", "version": 1, "name": "r", "bones": [{"name": "葦"}]})");
    EXPECT_TRUE(is_named_by("?", result.rig->bones[0].name));
    EXPECT_FALSE(is_named_by("??", result.rig->bones[0].name));
}

}  // namespace
}  // namespace ligament::testing
