// Does what is written read back as the same rig?
#include <gtest/gtest.h>

#include <cmath>

#include "faults.hpp"
#include "same_rig.hpp"
#include "whole_rig.hpp"

namespace ligament::testing {
namespace {

TEST(writing, reads_back_as_the_same_rig) {
    const Rig rig = *read_rig(whole_rig).rig;
    const std::string text = write_rig(rig);
    EXPECT_EQ(faults_of_text(text), "");
    EXPECT_EQ(text_of(*read_rig(text).rig), text_of(rig));
    EXPECT_EQ(write_rig(*read_rig(text).rig), text) << "and the same bytes again";
}

TEST(writing, leaves_out_defaults_and_ends_with_a_newline) {
    EXPECT_EQ(
        write_rig(tiny_rig(
            "{'name': 'a', 'from_parent': ['scale', 'rotation', 'position'], 'roles': [], 'constraints': [{'name': 'c', "
            "'kind': 'aim', 'from': [{'bone': 'a', 'at': 0, 'curved': false, 'weight': 1}], 'weight': 1.0, 'enabled': true, "
            "'space': 'final', 'axes': 'zyx', 'additive': false}]}",
            "'properties': [], 'objects': [{'name': 'o', 'follows': []}], 'sides': []")),
        R"({
  "format": "rig-description", "version": 1, "name": "tiny",
  "objects": [
    {"name": "o"}
  ],
  "bones": [
    {"name": "a", "constraints": [
      {"name": "c", "kind": "aim", "from": "a"}]}
  ]
}
)");
    EXPECT_EQ(write_rig(tiny_rig("", "'roots': []")), R"({
  "format": "rig-description", "version": 1, "name": "tiny",
  "roots": [],
  "bones": []
}
)");
}

// Checks of roles ask whether they are stated, and so has to be told where none is.
TEST(writing, says_that_roles_are_not_stated) {
    Rig rig = tiny_rig("{'name': 'a', 'roles': ['control']}, {'name': 'b'}");
    EXPECT_EQ(write_rig(rig).find("extras"), std::string::npos);
    for (Bone& bone : rig.bones) bone.role_is_stated = false;
    const std::string text = write_rig(rig);
    EXPECT_NE(text.find("\"extras\": {\"roles_are_stated\": false}"), std::string::npos);
    EXPECT_EQ(text_of(*read_rig(text).rig), text_of(rig));
}

// All else in `extras` is nobody's business, whatever it is called and whatever it is.
TEST(writing, takes_from_extras_nothing_but_that) {
    const auto is_stated = [](const std::string& extras) {
        const ReadResult result = read_rig(
            R"({"format": "rig-description", "version": 1, "name": "a", "bones": [{"name": "b"}], "extras": )" + extras + "}");
        return result.rig && result.rig->bones[0].role_is_stated;
    };
    for (const char* extras :
         {"1", "\"a\"", "true", "[false]", "{}", "{\"roles_are_stated\": true}", "{\"roles_are_stated\": \"no\"}",
          "{\"roles_are_stated\": 0}", "{\"roles_are_stated\": null, \"a\": null}", "{\"roles_are_stated\": [false]}",
          "{\"roles_are_stated\": {\"a\": false}}",
          "{\"a\": {\"roles_are_stated\": false}, \"bones\": [{\"roles_are_stated\": false}]}"})
        EXPECT_TRUE(is_stated(extras)) << extras;
    EXPECT_FALSE(is_stated("{\"a\": [{}], \"roles_are_stated\": false, \"b\": {\"c\": 1}}"));
    const ReadResult twice =
        read_rig(R"({"extras": {"a": 1, "a": {}}, "format": "rig-description", "version": 1, "name": "a", "bones": []})");
    ASSERT_EQ(twice.faults.size(), 1);
    EXPECT_EQ(twice.faults[0].message, "key \"a\" stands twice in an object");
}

TEST(writing, keeps_numbers_to_the_last_bit) {
    Rig rig = tiny_rig("{'name': 'a', 'tip': [0, 0, 0], 'rest': {}}");
    for (const double number : {0.1, 1.0 / 3, 1e22, 5e-324, 1.7976931348623157e308, -0.0, 123456789.125, 1e-7, 4294967295.0}) {
        rig.bones[0].tip = {number, -number, 0};
        const Rig again = *read_rig(write_rig(rig)).rig;
        EXPECT_EQ((*again.bones[0].tip)[0], number);
        EXPECT_EQ(std::signbit((*again.bones[0].tip)[0]), std::signbit(number));
        EXPECT_EQ((*again.bones[0].tip)[1], -number);
    }
    EXPECT_NE(write_rig(rig).find("\"tip\": [4294967295, -4294967295, 0]"), std::string::npos)
        << "whole numbers without a fraction";
}

TEST(writing, escapes_names) {
    Rig rig;
    rig.name = "x";
    for (const std::string& name :
         {std::string("\"\\/\b\f\n\r\t\x01\x7F"), std::string("nul\0!", 5), std::string("鷺 🐦 \xE2\x80\xAE")}) {
        Bone bone;
        bone.name = name;
        rig.bones.push_back(bone);
    }
    const ReadResult result = read_rig(write_rig(rig));
    ASSERT_TRUE(result.rig);
    for (std::size_t i = 0; i < rig.bones.size(); ++i) EXPECT_EQ(result.rig->bones[i].name, rig.bones[i].name);
}

TEST(writing, never_writes_what_is_no_json) {
    Rig rig;
    rig.name = "not utf-8: \xFF";
    rig.bones.resize(1);
    rig.bones[0].name = "a";
    EXPECT_EQ(faults_of_text(write_rig(rig)), "");
    rig.bones[0].tip = {std::nan(""), 0, 0};
    EXPECT_NE(faults_of_text(write_rig(rig)).find("wants a number, found null"), std::string::npos);
}

}  // namespace
}  // namespace ligament::testing
