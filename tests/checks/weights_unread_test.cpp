// Does `weights-unread` say that all joints of a skin count as deform bones, and why? Source: glTF 2.0 (ISO/IEC 12113:2022),
// sections 3.6 (buffers) and 3.7.3 (skins).
#include <gtest/gtest.h>

#include "found.hpp"
#include "gltf_text.hpp"

namespace ligament::testing {

namespace {

constexpr const char* wing =
    "'nodes': [{'name': 'arm', 'children': [1]}, {'name': 'tip'}, {'name': 'body', 'mesh': 0, 'skin': 0}], 'skins': [{'name': "
    "'wing', "
    "'joints': [0, 1]}], ";

}  // namespace

TEST(CheckWeightsUnread, NamesTheSkinTheReasonAndItsJoints) {
    const Looked looked = look_at(gltf_rig(
        std::string(wing) +
        "'meshes': [{'primitives': [{'attributes': {'JOINTS_0': 0, 'WEIGHTS_0': 0}, 'extensions': {'KHR_draco_mesh_compression': "
        "{}}}]}], 'accessors': [{'componentType': 5121, 'type': 'VEC4', 'count': 1}]"));
    EXPECT_EQ(
        found("weights-unread", looked),
        "warning skin \"wing\": its weights cannot be read: a primitive of mesh 0 is compressed by an extension, so all its 2 "
        "joints count as deform bones [arm tip]\n");
    const Finding finding = first_found("weights-unread", looked);
    EXPECT_EQ(finding.pointer, "/meshes/0/primitives/0");
    EXPECT_FALSE(finding.hint.empty());
    EXPECT_EQ(found("joint-unweighted", looked), "");
    EXPECT_TRUE(looked.rig.bones[1].deform);
}

TEST(CheckWeightsUnread, NearMissWeightsThatAreRead) {
    const Looked looked = look_at(gltf_rig(wing + weighted_meshes({{0}})));
    EXPECT_EQ(found("weights-unread", looked), "");
    EXPECT_FALSE(looked.rig.bones[1].deform);
}

TEST(CheckWeightsUnread, CleanRigSaysNothing) {
    EXPECT_EQ(found("weights-unread", "{'name': 'heron', 'roles': ['deform']}"), "");
}

}  // namespace ligament::testing
