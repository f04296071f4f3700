// Does `joint-unweighted` note the joints that no vertex is weighted to, and do findings on a glTF file point into it? Sources:
// glTF 2.0 (ISO/IEC 12113:2022), section 3.7.3 (skins); RFC 6901 (JSON Pointer).
#include <gtest/gtest.h>

#include "found.hpp"
#include "gltf_text.hpp"

namespace ligament::testing {

namespace {

// root > arm > hand > tip
std::string wing(const std::vector<std::uint8_t>& weighted) {
    return "'nodes': [{'name': 'body', 'mesh': 0, 'skin': 0}, {'name': 'root', 'children': [2]}, {'name': 'arm', 'children': "
           "[3]}, "
           "{'name': 'hand', 'children': [4]}, {'name': 'tip'}], 'skins': [{'joints': [1, 2, 3, 4]}], " +
           weighted_meshes({weighted});
}

}  // namespace

TEST(CheckJointUnweighted, NamesTheJoints) {
    const Looked looked = look_at(gltf_rig(wing({1, 2})));
    EXPECT_EQ(found("joint-unweighted", looked),
              "note 1 joint only carries weighted joints, no vertex is weighted to it: \"root\" [root]\n"
              "note 1 joint is an end tip, no vertex is weighted to it, only to the joint above: \"tip\" [tip]\n");
    EXPECT_EQ(first_found("joint-unweighted", looked).pointer, "/nodes/1");
}

TEST(CheckJointUnweighted, NearMissAllAreWeighted) {
    EXPECT_EQ(found("joint-unweighted", look_at(gltf_rig(wing({0, 1, 2, 3})))), "");
}

TEST(CheckJointUnweighted, CleanRigSaysNothing) { EXPECT_EQ(found("joint-unweighted", "{'name': 'heron'}"), ""); }

// Those of every check.
TEST(CheckJointUnweighted, FindingsOnAGltfFilePointIntoIt) {
    const Looked looked = look_at(gltf_rig(wing({1, 2}) + ", 'extras': {'rig': {'properties': [{'name': 'p'}]}}"));
    EXPECT_EQ(first_found("deform-carried", looked).pointer, "/nodes/3");
    EXPECT_EQ(first_found("property-unused", looked).pointer, "/extras/rig/properties/0");
    ASSERT_GE(looked.findings.size(), 4U);
    for (const Finding& finding : looked.findings) EXPECT_EQ(finding.pointer.substr(0, 1), "/") << finding.check;
    // No glTF file, no pointer.
    EXPECT_EQ(first_found("property-unused", look_at("{'name': 'a'}", "'properties': [{'name': 'p'}]")).pointer, "");
}

TEST(CheckJointUnweighted, FindingsOnACycleInAGltfFilePointIntoIt) {
    const Looked looked =
        look_at(gltf_rig("'nodes': [{'name': 'a', 'extensions': {'VRMC_node_constraint': {'constraint': {'rotation': {'source': "
                         "1}}}}}, {'name': 'b', "
                         "'extras': {'rig': {'constraints': [{'kind': 'rotation', 'from': 'a', 'space': 'local'}]}}}]"));
    const Finding finding = first_found("cycle", looked);
    EXPECT_EQ(finding.severity, Severity::error);
    EXPECT_EQ(finding.pointer.substr(0, 7), "/nodes/");
}

}  // namespace ligament::testing
