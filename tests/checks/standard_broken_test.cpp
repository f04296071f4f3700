// Does `standard-broken` pass on what a glTF file breaks of its standard? Source: glTF 2.0 (ISO/IEC 12113:2022), sections 3.5.1
// (scenes list roots) and 3.7.3.1 (a skin's joints have a common root).
#include <gtest/gtest.h>

#include "found.hpp"
#include "gltf_text.hpp"

namespace ligament::testing {

namespace {

std::string scene_of(std::string_view nodes) {
    return "'nodes': [{'name': 'heron', 'children': [1]}, {'name': 'wing'}], 'scenes': [{'nodes': [" + std::string(nodes) + "]}]";
}

}  // namespace

TEST(CheckStandardBroken, TellsWhatWhereAndOfWhichBones) {
    const Looked looked = look_at(gltf_rig(scene_of("0, 1")));
    EXPECT_EQ(found("standard-broken", looked),
              "warning node 1 \"wing\" is listed as a root of a scene, but hangs under node 0 \"heron\" [wing]\n");
    const Finding finding = first_found("standard-broken", looked);
    EXPECT_EQ(finding.pointer, "/scenes/0/nodes/1");
    EXPECT_EQ(finding.place.line, 1);
    EXPECT_FALSE(finding.hint.empty());
}

TEST(CheckStandardBroken, TellsEachOfTwo) {
    EXPECT_EQ(
        found("standard-broken", look_at(gltf_rig("'nodes': [{'name': 'a'}, {'name': 'b', 'rotation': [0, 0, 0, 2]}], 'skins': "
                                                  "[{'joints': [0, 1]}]"))),
        "warning the rotation is no unit quaternion []\n"
        "warning the joints of a skin have no common root: node 0 \"a\" hangs under node 0 \"a\", node 1 \"b\" under node 1 "
        "\"b\" [a b]\n");
}

TEST(CheckStandardBroken, NearMissASceneOfRoots) { EXPECT_EQ(found("standard-broken", look_at(gltf_rig(scene_of("0")))), ""); }

TEST(CheckStandardBroken, CleanRigSaysNothing) { EXPECT_EQ(found("standard-broken", "{'name': 'heron'}"), ""); }

}  // namespace ligament::testing
