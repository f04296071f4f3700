// Does each bone stand at rest where glTF 2.0 puts it?
#include "rest_frames.hpp"

#include <gtest/gtest.h>

#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

void expect_near(const Vector3& found, const Vector3& expected, double near = 1e-8) {
    for (std::size_t axis = 0; axis < 3; ++axis) EXPECT_NEAR(found[axis], expected[axis], near) << "axis " << axis;
}

}  // namespace

// glTF 2.0, 3.5.3 "Transformations": the local matrix is T * R * S, the global one that of the parent times the local one. By
// hand: a quarter turn about z (0, 0, sin 45, cos 45) takes x to y, so the child stands at (1, 0, 0) + 2 * (0, 1, 0).
TEST(RestFrames, ComposeAsGltfHasIt) {
    const Rig rig = tiny_rig(
        "{'name': 'child', 'parent': 'root', 'rest': {'translation': [1, 0, 0]}, 'tip': [0, 1, 0]},"
        "{'name': 'root', 'rest': {'translation': [1, 0, 0], 'rotation': [0, 0, 0.7071067811865476, 0.7071067811865476], "
        "'scale': "
        "[2, 2, 2]}}");
    const std::vector<RestFrame> frames = find_rest_frames(rig);
    expect_near(frames[1].origin, {1, 0, 0});
    expect_near(frames[1].direct({1, 0, 0}), {0, 2, 0});
    expect_near(frames[0].origin, {1, 2, 0});
    expect_near(rest_tip(rig.bones[0], frames[0]), {-1, 2, 0});
    expect_near(frames[0].size, {2, 2, 2});
    EXPECT_TRUE(frames[0].is_known && frames[1].is_known);
}

// Worked outside of this program, point by point, with Hamilton's q v q* instead of matrices; the quaternions are not of
// length 1.
TEST(RestFrames, ComposeAlongAChain) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'rest': {'translation': [0.5, -0.25, 1], 'rotation': [0.1, 0.2, 0.3, 0.9], 'scale': [2, 2, 2]}},"
        "{'name': 'b', 'parent': 'a', 'rest': {'translation': [0.125, 2, -0.75], 'rotation': [-0.5, 0.1, 0.4, 0.7], 'scale': [1, "
        "0.5, 3]}},"
        "{'name': 'c', 'parent': 'b', 'rest': {'translation': [-1, 0.5, 0.25], 'rotation': [0.3, -0.6, 0.2, -0.4], 'scale': "
        "[0.25, 1, 1]}}");
    const std::vector<RestFrame> frames = find_rest_frames(rig);
    expect_near(frames[1].origin, {-2.086842105, 3.155263158, 0.842105263});
    expect_near(frames[2].origin, {-3.083718913, 2.069259688, 2.92220937});
    expect_near(frames[2].place({0, 0.5, -2}), {-4.179936379, -0.162677848, 6.880335454});
    EXPECT_NEAR(angle_between(frames[2].turn, Quaternion{0.94715089, -0.093381074, 0.029348337, -0.305489512}), 0, 1e-5);
    EXPECT_NEAR(angle_between(frames[0].turn, frames[1].turn), 85.588274214, 1e-8);  // of b: 2 acos(0.7 / length)
}

// Textbook values: the angle of the quaternion (n sin a/2, cos a/2) is a, and q and -q are one turn (from memory).
TEST(RestFrames, AnglesOfTurns) {
    const double half = std::sqrt(0.5);
    EXPECT_NEAR(angle_between(Quaternion{0, 0, 0, 1}, {0, 0, half, half}), 90, 1e-9);
    EXPECT_NEAR(angle_between(Quaternion{0, 0, half, half}, {0, 0, -half, -half}), 0, 1e-9);
    EXPECT_NEAR(angle_between(Quaternion{0, 0, 0, 1}, {0.5, 0.5, 0.5, 0.5}), 120, 1e-9);
    EXPECT_NEAR(angle_between(Quaternion{1, 0, 0, 0}, {0, 1, 0, 0}), 180, 1e-9);
    EXPECT_NEAR(angle_between(Vector3{1, 0, 0}, {1, 1e-9, 0}) * 1e9, 180 / std::numbers::pi, 1e-6);
    EXPECT_NEAR(angle_between(Vector3{1, 1, 0}, {-3, 0, 0}), 135, 1e-9);
}

TEST(RestFrames, AreKnownWhereAllAboveHaveARest) {
    const Rig rig = tiny_rig(
        "{'name': 'root'}, {'name': 'a', 'parent': 'root', 'rest': {}}, {'name': 'b', 'rest': {'translation': [1, 2, 3]}},"
        "{'name': 'c', 'parent': 'b'}, {'name': 'd', 'parent': 'c', 'rest': {'translation': [0, 0, 1]}},"
        "{'name': 'far', 'rest': {'translation': [1e200, 0, 0]}}, {'name': 'none', 'rest': {'rotation': [0, 0, 0, 0]}}");
    const std::vector<RestFrame> frames = find_rest_frames(rig);
    std::string known;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone)
        if (frames[bone].is_known) known += rig.bones[bone].name + " ";
    EXPECT_EQ(known, "b none ");
    expect_near(frames[4].origin, {1, 2, 4});
    expect_near(frames[6].direct({1, 2, 3}), {1, 2, 3});
}

TEST(RestFrames, PlacesAlongABone) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'rest': {'translation': [1, 0, 0]}, 'tip': [0, 2, 0], 'curve': {}}, {'name': 'b', 'rest': {}},"
        "{'name': 'reader', 'constraints': [{'kind': 'position', 'from': [{'bone': 'a', 'at': 0.25}, {'bone': 'b', 'at': 0.5}, "
        "{'object': 'o'}, {'bone': 'a', 'at': 0.5, 'curved': true}, {'bone': 'a', 'curved': true}]}]}",
        "'objects': [{'name': 'o'}]");
    const std::vector<RestFrame> frames = find_rest_frames(rig);
    const std::vector<Source>& sources = rig.bones[2].constraints[0].sources;
    expect_near(rest_place(rig, frames, sources[0]).value(), {1, 0.5, 0});
    EXPECT_FALSE(rest_place(rig, frames, sources[1])) << "without tip";
    EXPECT_FALSE(rest_place(rig, frames, sources[2]));
    EXPECT_FALSE(rest_place(rig, frames, sources[3])) << "nobody knows where a bent bone runs";
    expect_near(rest_place(rig, frames, sources[4]).value(), {1, 0, 0});
}

}  // namespace ligament::testing
