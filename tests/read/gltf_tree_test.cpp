// Do the nodes of a glTF file hang together as it says, and is it said where they make no trees? Source: glTF 2.0 (ISO/IEC
// 12113:2022), sections 3.5.1 (strict trees: each node has at most one parent, without cycles) and 3.7.3 (skins).
#include <gtest/gtest.h>

#include "gltf_text.hpp"

namespace ligament::testing {
namespace {

// Section 3.5.1.
TEST(gltf_tree, has_one_parent_a_node) {
    EXPECT_EQ(gltf_faults("'nodes': [{'children': [2], 'name': 'wing'}, {'children': [2]}, {'name': 'tip'}]"),
              "/nodes/1/children/0: node 2 \"tip\" has two parents, node 0 \"wing\" and node 1\n");
    EXPECT_EQ(gltf_faults("'nodes': [{'children': [1, 1]}, {}]"),
              "/nodes/0/children/1: node 1 stands twice among the children of node 0\n");
}

TEST(gltf_tree, has_no_loops) {
    EXPECT_EQ(gltf_faults("'nodes': [{}, {'children': [1]}]"), "/nodes/1/children/0: parent loop node 1 -> node 1\n");
    EXPECT_EQ(gltf_faults("'nodes': [{'children': [1]}, {'children': [2]}, {'children': [0], 'name': 'c'}]"),
              "/nodes/2/children/0: parent loop node 0 -> node 2 \"c\" -> node 1 -> node 0\n");
    // Two loops, one with a tail that is none.
    EXPECT_EQ(gltf_faults("'nodes': [{}, {'children': [2, 0]}, {'children': [1]}, {'children': [4]}, {'children': [3]}]"),
              "/nodes/2/children/0: parent loop node 1 -> node 2 -> node 1\n"
              "/nodes/4/children/0: parent loop node 3 -> node 4 -> node 3\n");
    // A node of a loop that has a parent outside too.
    EXPECT_EQ(gltf_faults("'nodes': [{'children': [1]}, {'children': [2]}, {'children': [1]}]"),
              "/nodes/2/children/0: node 1 has two parents, node 0 and node 2\n");
}

TEST(gltf_tree, tells_a_long_loop_in_short) {
    std::string nodes;
    for (int i = 0; i < 40; ++i) nodes += (i > 0 ? ", " : "") + ("{'children': [" + std::to_string((i + 1) % 40)) + "]}";
    EXPECT_EQ(
        gltf_faults("'nodes': [" + nodes + "]"),
        "/nodes/39/children/0: parent loop node 0 -> node 39 -> node 38 -> node 37 -> node 36 -> node 35 -> node 34 -> node "
        "33 -> node 32 -> node 31 -> node 30 -> node 29 -> ... (40 nodes) -> node 0\n");
}

// Section 3.3 (indices are whole numbers from 0 on), and 2.7 (whole numbers may be written as 100.0 or 1e2).
TEST(gltf_tree, takes_whole_numbers_as_indices) {
    EXPECT_EQ(gltf_faults("'nodes': [{'children': [1, 1.5, -1, 'x', null, 4294967297]}]"),
              "/nodes/0/children/0: there is no node 1, the file has 1\n"
              "/nodes/0/children/1: the index of a node is wanted, found the number 1.5\n"
              "/nodes/0/children/2: the index of a node is wanted, found the number -1\n"
              "/nodes/0/children/3: the index of a node is wanted, found the string \"x\"\n"
              "/nodes/0/children/4: the index of a node is wanted, found null\n"
              "/nodes/0/children/5: there is no node 4294967297, the file has 1\n");
    std::string nodes = "{'children': [100.0, 1e0, 20e-1]}";
    for (int i = 0; i < 100; ++i) nodes += ", {}";
    const Rig rig = gltf_rig("'nodes': [" + nodes + "]");
    EXPECT_EQ(rig.bones[1].parent, 0);
    EXPECT_EQ(rig.bones[2].parent, 0);
    EXPECT_EQ(rig.bones[3].parent, none);
    EXPECT_EQ(rig.bones[100].parent, 0);
}

TEST(gltf_tree, tells_what_is_no_list_and_no_object) {
    EXPECT_EQ(gltf_faults("'nodes': {}"), "/nodes: \"nodes\" wants a list, found an object\n");
    EXPECT_EQ(gltf_faults("'nodes': [1, {'children': 3}], 'skins': [{}]"),
              "/nodes/0: a node is an object, found the number 1\n"
              "/nodes/1/children: \"children\" wants a list, found the number 3\n"
              "/skins/0: a skin needs \"joints\"\n");
}

// Any order of nodes is allowed; bones stay where nodes stand, and the tree's order is another thing.
TEST(gltf_tree, may_have_children_before_parents) {
    EXPECT_EQ(
        dump_bones(gltf_rig("'nodes': [{'name': 'tip'}, {'name': 'mid', 'children': [0]}, {'name': 'root', 'children': [1]}],"
                            "'skins': [{'joints': [0, 2, 1]}]")),
        "tip mechanism < mid (root)\nmid mechanism < root (root)\nroot control (root)\n");
}

// Section 3.7.3.1: joints have a common root; `skeleton` is the closest common root or a node above it.
TEST(gltf_skins, have_a_common_root) {
    const std::string nodes =
        "'nodes': [{'name': 'top', 'children': [1, 4]}, {'name': 'root', 'children': [2, 3]}, {'name': 'a'}, "
        "{'name': 'b'}, {'name': 'far'}, {'name': 'lone'}], 'skins': [{'joints': ";
    const auto broken = [&](const std::string& skin) {
        const std::string dump = gltf_remarks(nodes + skin + "}]");
        const std::size_t at = dump.find("/skins/");  // behind those about weights
        return at == std::string::npos ? "" : dump.substr(at);
    };
    EXPECT_EQ(
        broken("[2, 5]"),
        "/skins/0/joints: broken: the joints of a skin have no common root: node 2 \"a\" hangs under node 0 \"top\", node 5 "
        "\"lone\" under node 5 \"lone\" [a lone]\n");
    EXPECT_EQ(broken("[2, 3]"), "");
    EXPECT_EQ(broken("[2, 3], 'skeleton': 1"), "");
    EXPECT_EQ(broken("[2, 3], 'skeleton': 0"), "");
    EXPECT_EQ(broken("[1, 3], 'skeleton': 1"), "");
    const std::string start =
        "/skins/0/skeleton: broken: \"skeleton\" of a skin is a common root of its joints or above it, found ";
    EXPECT_EQ(broken("[2, 3], 'skeleton': 2"), start + "node 2 \"a\", under which node 3 \"b\" does not hang [a]\n");
    EXPECT_EQ(broken("[2, 3], 'skeleton': 4"), start + "node 4 \"far\", under which node 2 \"a\" does not hang [far]\n");
    EXPECT_EQ(broken("[2, 4], 'skeleton': 1"), start + "node 1 \"root\", under which node 4 \"far\" does not hang [root]\n");
}

// Section 5.28.3 (skin.joints): each joint once, at least one.
TEST(gltf_skins, have_each_joint_once) {
    EXPECT_EQ(gltf_remarks("'nodes': [{'name': 'a'}], 'skins': [{'joints': [0, 0]}, {'joints': []}]"),
              "/nodes/0: joint: 1 joint is of skins that no mesh uses, no vertex is weighted to it [a]\n"
              "/skins/0/joints/1: broken: node 0 stands twice among the joints of a skin\n"
              "/skins/1: broken: a skin without joints moves nothing\n");
}

// Section 3.7.3.1: a node with a skin has a mesh, all of whose primitives have JOINTS_0 and WEIGHTS_0.
TEST(gltf_skins, have_a_mesh_with_joints) {
    const std::string dump = gltf_remarks(
        "'nodes': [{'name': 'a', 'skin': 0}, {'name': 'b', 'skin': 0, 'mesh': 0}],"
        "'skins': [{'joints': [0]}], 'meshes': [{'primitives': [{'attributes': {}}]}]");
    EXPECT_NE(dump.find("/nodes/0/skin: broken: a node with a skin needs a mesh [a]\n"), std::string::npos) << dump;
    EXPECT_NE(dump.find("/nodes/1: broken: node 1 \"b\" has a skin, but its mesh has a primitive without joints [b]\n"),
              std::string::npos)
        << dump;
}

// What costs more than linear time, or recurses, does not come to an end here.
TEST(gltf_tree, may_be_a_chain_of_200000_nodes) {
    constexpr int size = 200'000;
    for (const bool is_rising : {true, false}) {
        std::string nodes = "'nodes': [";
        for (int i = 0; i < size; ++i) {
            const int child = is_rising ? i + 1 : i - 1;
            nodes += child < 0 || child >= size ? "{}" : "{'children': [" + std::to_string(child) + "]}";
            if (i + 1 < size) nodes += ",";
        }
        const Rig rig = gltf_rig(nodes + "], 'skins': [{'joints': [199999, 0]}]");
        ASSERT_EQ(rig.bones.size(), size);
        EXPECT_EQ(rig.bones[100].parent, is_rising ? 99 : 101);
        EXPECT_EQ(rig.bones[is_rising ? 0 : size - 1].parent, none);
    }
}

// 50,000 skins of one joint each at the end of a chain as long: what a skin costs does not depend on how deep it hangs.
TEST(gltf_skins, may_be_many_in_a_deep_tree) {
    constexpr int count = 50'000;
    std::string nodes = "'nodes': [", skins = "{}], 'skins': [";
    for (int i = 1; i < count; ++i) nodes += "{'children': [" + std::to_string(i) + "]}, ";
    for (int i = 0; i < count; ++i) skins += (i > 0 ? ", {'joints': [" : "{'joints': [") + std::to_string(count - 1) + "]}";
    EXPECT_EQ(gltf_rig(nodes + skins + "]").objects.size(), count);
}

}  // namespace
}  // namespace ligament::testing
