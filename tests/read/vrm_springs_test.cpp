// What do the nodes of a VRM that swing read? Sources, from memory: VRM 1.0 (VRMC_springBone) and VRM 0.x (secondaryAnimation),
// by their published schemas. A spring turns a node (channels 56: the three of rotation) by what it reads of others (511: all
// nine).
#include <gtest/gtest.h>

#include "gltf_text.hpp"

namespace ligament::testing {
namespace {

const std::string nodes =
    "'nodes': [{'name': 'top', 'children': [1]}, {'name': 'one', 'children': [2]}, {'name': 'two', 'children': [3]}, {'name': "
    "'three'}, {'name': 'head'}, {'name': 'hand'}], 'extensions': ";

// VRM 1.0, with three colliders on two nodes in two groups.
std::string springs(const std::string& list) {
    return nodes +
           "{'VRMC_springBone': {'colliders': [{'node': 5}, {'node': 4}, {'node': 5}], 'colliderGroups': [{'colliders': [0, 1, "
           "2]}, {'colliders': [0]}], 'springs': [" +
           list + "]}}";
}
// VRM 0.x, with two colliders.
std::string bone_groups(const std::string& list) {
    return nodes + "{'VRM': {'secondaryAnimation': {'colliderGroups': [{'node': 5}, {'node': 4}], 'boneGroups': [" + list +
           "]}}}";
}
std::string swings(const std::string& text) { return dump_constraints(gltf_rig(text)); }

TEST(vrm_springs, read_the_joint_before_the_center_and_the_colliders) {
    EXPECT_EQ(
        swings(springs("{'name': 'hair', 'center': 0, 'colliderGroups': [0, 1], 'joints': [{'node': 1}, {'node': 2}, {'node': "
                       "3}]}")),
        "one: spring custom final | 511 > 56 \"hair\" <- top hand head\n"
        "two: spring custom final | 511 > 56 \"hair\" <- one top hand head\n");
    // Each once, whatever it is.
    EXPECT_EQ(
        swings(springs("{'center': 4, 'colliderGroups': [0], 'joints': [{'node': 1}, {'node': 3}, {'node': 3}]}")),
        "one: spring custom final | 511 > 56 \"\" <- head hand\nthree: spring custom final | 511 > 56 \"\" <- one head hand\n");
}

// The last joint only says where the one before it ends.
TEST(vrm_springs, have_no_spring_at_their_last_joint) {
    EXPECT_EQ(swings(springs("{'joints': [{'node': 1}]}, {'joints': []}, {}")), "");
}

TEST(vrm_springs, swing_with_the_parent_where_there_is_nothing_else) {
    EXPECT_EQ(swings(springs("{'joints': [{'node': 1}, {'node': 2}]}")), "one: spring custom final | 511 > 56 \"\" <- top\n");
    EXPECT_EQ(swings(springs("{'joints': [{'node': 0}, {'node': 1}]}")), "");  // a root reads nothing
}

TEST(vrm_springs, tell_joints_that_are_wrong) {
    const std::string at = "/extensions/VRMC_springBone/springs/";
    const std::string twice =
        springs("{'joints': [{'node': 1}, {'node': 2}]}, {'joints': [{'node': 0}, {'node': 1}, {'node': 3}]}");
    EXPECT_EQ(gltf_remarks(twice), at + "1/joints/1: broken: node 1 is a joint of two springs, 0 and 1 [one]\n");
    EXPECT_EQ(swings(twice), "one: spring custom final | 511 > 56 \"\" <- top\n");  // the first one counts
    EXPECT_EQ(gltf_remarks(springs("{'joints': [{'node': 2}, {'node': 1}, {'node': 4}]}")),
              at +
                  "0/joints/1: broken: each joint of a spring hangs under the one before it, node 1 does not hang under node 2 "
                  "[one]\n" +
                  at +
                  "0/joints/2: broken: each joint of a spring hangs under the one before it, node 4 does not hang under node 1 "
                  "[head]\n");
    EXPECT_EQ(gltf_remarks(springs("{'joints': [{'node': 1}, {'node': 3}]}")), "");  // further down is allowed
    EXPECT_EQ(gltf_faults(springs("{'joints': [{}, {'node': 6}, 3], 'center': 'x', 'colliderGroups': [2]}")),
              at + "0/joints/0: a joint of a spring needs \"node\"\n" + at +
                  "0/joints/1/node: there is no node 6, the file has 6\n" + at +
                  "0/joints/2: a joint is an object, found the number 3\n" + at +
                  "0/center: the index of a node is wanted, found the string \"x\"\n" + at +
                  "0/colliderGroups/0: there is no group of colliders 2, the file has 2\n");
    EXPECT_EQ(gltf_faults(nodes + "{'VRMC_springBone': {'colliders': [{}], 'colliderGroups': [{'colliders': [1]}]}}"),
              "/extensions/VRMC_springBone/colliders/0: a collider needs \"node\"\n"
              "/extensions/VRMC_springBone/colliderGroups/0/colliders/0: there is no collider 1, the file has 1\n");
}

TEST(secondary_animation, swings_all_below_its_bones) {
    EXPECT_EQ(swings(bone_groups("{'comment': 'hair', 'center': -1, 'bones': [1], 'colliderGroups': [0]}")),
              "one: spring custom final | 511 > 56 \"hair\" <- hand\n"
              "two: spring custom final | 511 > 56 \"hair\" <- one hand\n"
              "three: spring custom final | 511 > 56 \"hair\" <- two hand\n");
    EXPECT_EQ(swings(bone_groups("{'center': 4, 'bones': [3, 5], 'colliderGroups': [1]}")),
              "three: spring custom final | 511 > 56 \"\" <- head\nhand: spring custom final | 511 > 56 \"\" <- head\n");
    EXPECT_EQ(gltf_remarks(bone_groups("{'center': -1, 'bones': [1]}, {'bones': [4]}")), "");
}

TEST(secondary_animation, tells_nodes_of_two_groups) {
    const std::string at = "/extensions/VRM/secondaryAnimation/boneGroups/";
    const std::string below = bone_groups("{'comment': 'a', 'bones': [1]}, {'comment': 'b', 'bones': [2]}"),
                      above = bone_groups("{'comment': 'a', 'bones': [2]}, {'comment': 'b', 'bones': [1]}");
    EXPECT_EQ(gltf_remarks(below), at + "1/bones/0: broken: node 2 is a joint of two springs, 0 and 1 [two]\n");
    EXPECT_EQ(gltf_remarks(above), gltf_remarks(below));
    EXPECT_EQ(swings(above),
              "one: spring custom final | 511 > 56 \"b\" <- top\ntwo: spring custom final | 511 > 56 \"a\" <- one\n"
              "three: spring custom final | 511 > 56 \"a\" <- two\n");
    EXPECT_EQ(gltf_faults(bone_groups("{'bones': [-1], 'center': -2, 'colliderGroups': [-1]}")),
              at + "0/bones/0: the index of a node is wanted, found the number -1\n" + at +
                  "0/center: the index of a node is wanted, found the number -2\n" + at +
                  "0/colliderGroups/0: the index of a group of colliders is wanted, found the number -1\n");
}

// Joints times colliders: a file of some 100 kB asks for 1.2 million sources.
TEST(vrm_springs, have_a_limit_to_what_they_read) {
    constexpr int joints = 1'200, colliders = 1'000;
    std::string all = "'nodes': [", spring, balls, group;
    for (int i = 0; i < joints; ++i) {
        all += i + 1 < joints ? "{'children': [" + std::to_string(i + 1) + "]}, " : "{}";
        spring += (i > 0 ? ", " : "") + ("{'node': " + std::to_string(i)) + "}";
    }
    for (int i = 0; i < colliders; ++i) {
        all += ", {}";
        balls += (i > 0 ? ", " : "") + ("{'node': " + std::to_string(joints + i)) + "}";
        group += (i > 0 ? ", " : "") + std::to_string(i);
    }
    // 1,000 nodes of the group, then 1,002 a joint: joint 997 is the 998th, and the first beyond 1,000,000.
    EXPECT_EQ(gltf_faults(all + "], 'extensions': {'VRMC_springBone': {'colliders': [" + balls +
                          "], 'colliderGroups': [{'colliders': [" + group +
                          "]}], 'springs': [{'colliderGroups': [0], 'joints': [" + spring + "]}]}}"),
              "/extensions/VRMC_springBone/springs/0/joints/997: the springs read more than 1000000 nodes in all\n");
}

TEST(vrm_springs, have_names_of_a_limit) {
    const std::string file = "'nodes': [{'children': [1]}, {}], 'extensions': {'VRMC_springBone': {'springs': [{'name': '" +
                             std::string(1'001, 'r') + "', 'joints': [{'node': 0}, {'node': 1}]}]}}";
    EXPECT_EQ(gltf_faults(file),
              "/extensions/VRMC_springBone/springs/0: \"name\" of a spring has 1001 bytes, at most 1000 are taken\n");
}

}  // namespace
}  // namespace ligament::testing
