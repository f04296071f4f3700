// What is said about the scenes of a glTF file? Source: glTF 2.0 (ISO/IEC 12113:2022), section 3.5.1 (a scene lists root nodes,
// each once) and 3.7.3.1 (a skin's joints are in the scene of the node that has it).
#include <gtest/gtest.h>

#include "gltf_taker.hpp"
#include "gltf_text.hpp"

namespace ligament::testing {
namespace {

constexpr const char* nodes = "'nodes': [{'name': 'heron', 'children': [1]}, {'name': 'wing'}, {}], 'scenes': [";

std::string remarks_of(const std::string& scenes, const std::string& rest = "") {
    return gltf_remarks(nodes + scenes + "]" + rest);
}

TEST(gltf_scenes, list_root_nodes_once) {
    EXPECT_EQ(remarks_of("{'nodes': [0, 2]}, {'nodes': [2, 0]}, {}"), "");
    EXPECT_EQ(remarks_of("{'nodes': [0, 2, 0]}, {'nodes': [2, 2]}"),
              "/scenes/0/nodes/2: broken: node 0 \"heron\" stands twice in scene 0 [heron]\n"
              "/scenes/1/nodes/1: broken: node 2 stands twice in scene 1 [node#2]\n");
    EXPECT_EQ(
        remarks_of("{'nodes': [1]}"),
        "/scenes/0/nodes/0: broken: node 1 \"wing\" is listed as a root of a scene, but hangs under node 0 \"heron\" [wing]\n");
}

// No rig rests on a scene, so what is wrong is told and the file is read.
TEST(gltf_scenes, tell_what_is_wrong_with_their_indices) {
    EXPECT_EQ(remarks_of("{'nodes': [7, -1]}, 3, {'nodes': []}", ", 'scene': 3"),
              "/scenes/0/nodes/0: broken: there is no node 7, the file has 3\n"
              "/scenes/0/nodes/1: broken: the index of a node is wanted, found the number -1\n"
              "/scenes/1: broken: a scene is an object, found the number 3\n"
              "/scenes/2/nodes: broken: \"nodes\" is an empty list\n"
              "/scene: broken: there is no scene 3, the file has 3\n");
    EXPECT_EQ(remarks_of("{'nodes': [0]}", ", 'scene': 0"), "");
}

TEST(gltf_scenes, have_a_limit_to_what_is_told) {
    std::string list = "0";
    for (int i = 0; i < 100'005; ++i) list += ", 0";
    const Rig rig = gltf_rig(nodes + ("{'nodes': [" + list) + "]}]");
    ASSERT_EQ(rig.remarks.size(), GltfTaker::remark_limit + 1);
    EXPECT_EQ(rig.remarks[9'999].pointer, "/scenes/0/nodes/10000");
    EXPECT_EQ(rig.remarks.back().message, "there is more of this, listed are 10000");
    EXPECT_TRUE(rig.remarks.back().bones.empty());
}

TEST(gltf_scenes, hold_the_joints_of_their_skins) {
    const std::string skin =
        "'nodes': [{'name': 'root'}, {'name': 'body', 'mesh': 0, 'skin': 0}, {'name': 'twin', 'mesh': 0, "
        "'skin': 0}], 'skins': [{'joints': [0]}], " +
        weighted_meshes({{0}}) + ", 'scenes': [";
    EXPECT_EQ(gltf_remarks(skin + "{'nodes': [0, 1]}, {'nodes': [0]}]"), "");
    // Once for each node, though two scenes lack the joints.
    EXPECT_EQ(gltf_remarks(skin + "{'nodes': [1]}, {'nodes': [2, 1]}]"),
              "/nodes/1: broken: node 1 \"body\" has a skin whose joints are not in scene 0, as it is itself [body]\n"
              "/nodes/2: broken: node 2 \"twin\" has a skin whose joints are not in scene 1, as it is itself [twin]\n");
}

}  // namespace
}  // namespace ligament::testing
