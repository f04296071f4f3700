// Which texts are read as glTF 2.0, and what is said of others? Source: glTF 2.0 (ISO/IEC 12113:2022), section 3.2 (asset: its
// version, and the least version that a reader needs); RFC 8259, section 8.1 (byte order marks).
#include <gtest/gtest.h>

#include <algorithm>

#include "ligament/read.hpp"

namespace ligament::testing {
namespace {

// "pointer: message" a line, or "read".
std::string faults_of(std::string text) {
    std::replace(text.begin(), text.end(), '\'', '"');
    const ReadResult result = read_gltf(text, {});
    std::string dump;
    for (const Fault& fault : result.faults) dump += fault.pointer + ": " + fault.message + "\n";
    EXPECT_EQ(result.rig.has_value(), result.faults.empty());
    return result.rig ? "read" : dump;
}

TEST(read_gltf, of_version_2) {
    EXPECT_EQ(faults_of("{'asset': {'version': '2.0'}}"), "read");
    // Later ones of the same major version can be read, where they do not say otherwise.
    EXPECT_EQ(faults_of("{'asset': {'version': '2.5'}}"), "read");
    EXPECT_EQ(faults_of("{'asset': {'version': '2.1', 'minVersion': '2.0'}}"), "read");
    EXPECT_EQ(faults_of("{'asset': {'version': '2.1', 'minVersion': '2.1'}}"),
              "/asset/minVersion: glTF version \"2.1\" is not read, only 2.0\n");
    EXPECT_EQ(faults_of("{'asset': {'version': '1.0'}}"), "/asset/version: glTF version \"1.0\" is not read, only 2.0\n");
    EXPECT_EQ(faults_of("{'asset': {'version': '20'}}"), "/asset/version: glTF version \"20\" is not read, only 2.0\n");
}

TEST(read_gltf, needs_a_version) {
    EXPECT_EQ(faults_of("{}"), ": a glTF file needs \"asset\" with \"version\"\n");
    EXPECT_EQ(faults_of("{'asset': {}}"), "/asset: a glTF file needs \"asset\" with \"version\"\n");
    EXPECT_EQ(faults_of("{'asset': 2}"), "/asset: a glTF file needs \"asset\" with \"version\"\n");
    EXPECT_EQ(faults_of("['asset']"), ": a glTF file is an object with \"asset\", found something else\n");
    EXPECT_EQ(faults_of("{'asset': {'version': 2.5}}"),
              "/asset/version: the version of a glTF file is a string, \"2.0\", found the number 2.5\n");
    EXPECT_EQ(faults_of("{'asset': {'version': '2.0', 'minVersion': true}}"),
              "/asset/minVersion: the version of a glTF file is a string, \"2.0\", found true\n");
}

TEST(read_gltf, with_a_byte_order_mark_is_remarked_on) {
    const ReadResult result = read_gltf("\xEF\xBB\xBF{\"asset\": {\"version\": \"2.0\"}}", {});
    ASSERT_TRUE(result.rig);
    ASSERT_EQ(result.rig->remarks.size(), 1);
    EXPECT_EQ(result.rig->remarks[0].message, "the text begins with a byte order mark");
}

// One fault in the text and one in what it says; what is a fault already is told once.
TEST(read_gltf, tells_all_faults_at_once) {
    EXPECT_EQ(faults_of("{'asset': {'version': '2.0'}, 'nodes': [{'children': [1e999, 1]}, {'children': [1], 'name': 7}, {}], "
                        "'skins': [{'joints': 0}], 'skins': [{}]}"),
              "/nodes/0/children/0: number is too large, numbers are at most 1.7976931348623157e+308\n"
              "/nodes/1/children/0: node 1 has two parents, node 0 and node 1\n"
              "/skins/0/joints: \"joints\" wants a list, found the number 0\n"
              "/skins: key \"skins\" stands twice in an object\n");
}

}  // namespace
}  // namespace ligament::testing
