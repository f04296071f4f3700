// Where a text is no JSON (RFC 8259), is it said why and where, with the faults before it?
#include "json_text.hpp"

#include <gtest/gtest.h>

#include "faults.hpp"

namespace ligament::testing {
namespace {

TEST(json, breaks_off_at_the_start) {
    EXPECT_EQ(faults_of_text(""), "1:1: the input is empty, wanted a rig description\n");
    EXPECT_EQ(faults_of_text(" \n "), "2:2: the input is empty, wanted a rig description\n");
    EXPECT_EQ(faults_of_text("hello"), "1:1: wanted a value, found \"hello\"\n");
    EXPECT_EQ(faults_of_text("}"), "1:1: wanted a value, found \"}\"\n");
    EXPECT_EQ(faults_of_text(std::string_view("\0", 1)), "1:1: wanted a value, found the byte 0x00\n");
    EXPECT_EQ(faults_of_text("glTF\x02"), "1:1: wanted a value, found \"glTF\"\n");
}

TEST(json, breaks_off_in_an_object) {
    EXPECT_EQ(faults_of_text("{"), "1:2: wanted a key or \"}\", found the end of the text\n");
    EXPECT_EQ(faults_of_text("{'"), "1:2: wanted a key or \"}\", found \"'\"\n");
    EXPECT_EQ(faults_of_text("{name"), "1:2: wanted a key or \"}\", found \"name\"\n");
    EXPECT_EQ(faults_of_text("{\"name\"}"), "1:8: wanted \":\" after a key, found \"}\"\n");
    EXPECT_EQ(faults_of_text("{\"name\": }"), "1:10: wanted a value after \":\", found \"}\"\n");
    EXPECT_EQ(faults_of_text("{\"name\": tru}"), "1:10: wanted a value after \":\", found \"tru\"\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"a\"\n \"bones\": []}"), "2:2: wanted \",\" or \"}\", found a string\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"a\",}"), "1:14: wanted a key after \",\", found \"}\"\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"a\",, \"b\": 1}"), "1:14: wanted a key after \",\", found \",\"\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"a\", \"version\" 1}"), "1:25: wanted \":\" after a key, found \"1\"\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"a\"]"), "1:13: wanted \",\" or \"}\", found \"]\"\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"a\" // no\n}"), "1:14: wanted \",\" or \"}\", found \"/\"\n");
}

TEST(json, breaks_off_in_a_list) {
    EXPECT_EQ(faults_of_text("{\"bones\": ["), "1:12: wanted a value or \"]\", found the end of the text\n");
    EXPECT_EQ(faults_of_text("{\"bones\": [,"), "1:12: wanted a value or \"]\", found \",\"\n");
    EXPECT_EQ(faults_of_text("{\"extras\": [1,]"), "1:15: wanted a value after \",\", found \"]\"\n");
    EXPECT_EQ(faults_of_text("{\"extras\": [1,,2]"), "1:15: wanted a value after \",\", found \",\"\n");
    EXPECT_EQ(faults_of_text("{\"extras\": [1 2]"), "1:15: wanted \",\" or \"]\", found \"2\"\n");
    EXPECT_EQ(faults_of_text("{\"extras\": [1}"), "1:14: wanted \",\" or \"]\", found \"}\"\n");
    EXPECT_EQ(faults_of_text("{\"extras\": [[], [{}}"), "1:20: wanted \",\" or \"]\", found \"}\"\n");
}

TEST(json, breaks_off_in_a_number_or_word) {
    EXPECT_EQ(faults_of_text("{\"extras\": 01}"), "1:13: wanted \",\" or \"}\", found \"1\"\n");
    EXPECT_EQ(faults_of_text("{\"extras\": 1.}"), "1:12: \"1.\" is not a number of JSON\n");
    EXPECT_EQ(faults_of_text("{\"extras\": -}"), "1:12: \"-\" is not a number of JSON\n");
    EXPECT_EQ(faults_of_text("{\"extras\": 1e}"), "1:12: \"1e\" is not a number of JSON\n");
    EXPECT_EQ(faults_of_text("{\"extras\": .5}"), "1:12: wanted a value after \":\", found \".\"\n");
    EXPECT_EQ(faults_of_text("{\"extras\": +1}"), "1:12: wanted a value after \":\", found \"+\"\n");
    EXPECT_EQ(faults_of_text("{\"extras\": NaN}"), "1:12: \"NaN\" is not a number of JSON, numbers are finite\n");
    EXPECT_EQ(faults_of_text("{\"extras\": [-Infinity]}"), "1:13: \"-Infinity\" is not a number of JSON\n");
    EXPECT_EQ(faults_of_text("{\"extras\": True}"), "1:12: wanted a value after \":\", found \"True\"\n");
}

TEST(json, breaks_off_in_a_string) {
    EXPECT_EQ(faults_of_text("{\"name\": \"abc"), "1:10: string is not closed\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"abc\\"),
              "1:14: unknown escape in a string, known are \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\u\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"a\nb\"}"),
              "1:12: a line break in a string, write it as an escape or close the string\n");
    EXPECT_EQ(faults_of_text("{\"na\tme\": 1}"),
              "1:5: the control character 0x09 in a string, write it as an escape or close the string\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"\\x\"}"),
              "1:11: unknown escape in a string, known are \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\u\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"\\u12G4\"}"), "1:11: wanted four hexadecimal digits after \"\\u\"\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"\\ud83d\"}"), "1:11: half of a surrogate pair\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"\\udc26\"}"), "1:11: half of a surrogate pair\n");
    EXPECT_EQ(faults_of_text("{\"name\": \"\\ud83d\\u0041\"}"), "1:11: half of a surrogate pair\n");
}

TEST(json, is_utf8) {
    // Ill-formed sequences after RFC 3629, section 3 and 4: a stray continuation, overlong forms, a surrogate, beyond U+10FFFF,
    // cut off.
    for (const std::string bytes : {"\x80", "\xC0\xAF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xF0\x8F\xBF\xBF",
                                    "\xC3", "\xE2\x82", "\xFF"}) {
        const std::string faults = faults_of_text("{\"name\": \"\xC3\xA9" + bytes + "\"}");
        EXPECT_EQ(faults.substr(0, 19), "1:12: the byte 0x" + std::string(faults.substr(17, 2))) << faults;
        EXPECT_NE(faults.find("is not UTF-8"), std::string::npos) << faults;
    }
    // The first and last of each length.
    for (const std::string bytes :
         {"\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
        EXPECT_EQ(faults_of_text("{\"format\": \"rig-description\", \"version\": 1, \"name\": \"" + bytes + "\", \"bones\": []}"),
                  "");
    EXPECT_EQ(faults_of_text("\xFF{}"), "1:1: wanted a value, found the byte 0xff, which is not UTF-8\n");
}

TEST(json, has_nothing_after_its_end) {
    EXPECT_EQ(faults_of_text("{\"format\": \"rig-description\", \"version\": 1, \"name\": \"a\", \"bones\": [{\"name\": \"b\", "
                             "\"parent\": \"c\"}]} {}"),
              "1:92: unknown bone \"c\"\n1:99: text after the end of the rig description, found \"{\"\n");
}

TEST(json, has_no_byte_order_mark) {
    EXPECT_EQ(faults_of_text("\xEF\xBB\xBF{\"format\": \"rig-description\", \"version\": 1, \"name\": 5, \"bones\": []}"),
              "1:1: a byte order mark is not taken, save the file as UTF-8 without one\n1:53: \"name\" wants a string, found the "
              "number 5\n");
}

TEST(json, keeps_the_faults_before_it_breaks_off_but_resolves_no_names) {
    EXPECT_EQ(faults_of_text("{\"format\": \"rig-description\", \"nam\": 1,\n \"bones\": [{\"name\": \"a\", \"parent\": "
                             "\"b\"},\n {\"name\": 5}, x"),
              "1:31: unknown key \"nam\" in a rig, nearest is \"name\"\n3:11: \"name\" wants a string, found the number 5\n"
              "3:15: wanted a value after \",\", found \"x\"\n");
}

TEST(json, stays_broken_off_behind_a_number_too_large) {
    EXPECT_EQ(faults_of_text("{\"extras\": [1e999, \"1e999\", -2e999, }"),
              "1:13: number is too large, numbers are at most 1.7976931348623157e+308\n"
              "1:29: number is too large, numbers are at most 1.7976931348623157e+308\n1:37: wanted a value after \",\", found "
              "\"}\"\n");
}

TEST(json, breaks_off_right_behind_a_number_too_large) {
    EXPECT_EQ(faults_of_text("1e999e"),
              "1:1: number is too large, numbers are at most 1.7976931348623157e+308\n1:6: text after the end of the rig "
              "description, found \"e\"\n");
}

// A text of many characters of several bytes in one line, and the same in many lines.
TEST(places, count_code_points_also_in_one_long_line) {
    std::string line = "{\"format\": \"rig-description\", \"version\": 1, \"name\": \"x\", \"bones\": [";
    const auto first = static_cast<std::uint32_t>(line.size() + 1);
    for (int i = 0; i < 1000; ++i) line += "{\"name\": \"v\xC3\xB6gel_" + std::to_string(1000 + i) + "\"},";
    line.back() = ']';
    const ReadResult result = read_rig(line + "}");
    ASSERT_TRUE(result.rig);
    for (std::uint32_t i = 0; i < 1000; ++i) EXPECT_EQ(result.rig->bones[i].place, (Place{1, first + 23 * i}));
}

TEST(places, of_every_element) {
    const Rig rig = *read_rig(R"({"format": "rig-description", "version": 1, "name": "x",
 "properties": [{"name": "p", "value":
    {"curve": [[0, 0]], "input": {"property": "p"}}}],
 "objects": [{"name": "o"}],
 "bones": [
  {"name": "a", "curve": {}, "channels": {"scale.x":
      {"expression": "s", "inputs": {"s":
        {"property": "p"}}}}},
  {"name": "b", "constraints": [
    {"kind": "aim", "from":
        ["a", {"bone": "b"}], "up":
          "a"}
  ]}]})")
                         .rig;
    EXPECT_EQ(rig.properties[0].place, (Place{2, 17}));
    EXPECT_EQ(rig.drivers[0].place, (Place{3, 5}));
    EXPECT_EQ(rig.drivers[0].inputs[0].place, (Place{3, 34}));
    EXPECT_EQ(rig.objects[0].place, (Place{4, 14}));
    EXPECT_EQ(rig.bones[0].place, (Place{6, 3}));
    EXPECT_EQ(rig.bones[0].curve->place, (Place{6, 26}));
    EXPECT_EQ(rig.bones[0].channels[0].place, (Place{6, 43}));
    EXPECT_EQ(rig.drivers[1].place, (Place{7, 7}));
    EXPECT_EQ(rig.drivers[1].inputs[0].place, (Place{8, 9}));
    EXPECT_EQ(rig.bones[1].place, (Place{9, 3}));
    EXPECT_EQ(rig.bones[1].constraints[0].place, (Place{10, 5}));
    EXPECT_EQ(rig.bones[1].constraints[0].sources[0].place, (Place{11, 10}));
    EXPECT_EQ(rig.bones[1].constraints[0].sources[1].place, (Place{11, 15}));
    EXPECT_EQ(rig.bones[1].constraints[0].sources[2].place, (Place{12, 11}));
}

TEST(places, count_line_feeds_whatever_stands_before_them) {
    EXPECT_EQ(faults_of_text("{\r\n\t\"nam\": 1,\r\n\"format\": 2}").substr(0, 4), "1:1:");
    EXPECT_NE(faults_of_text("{\r\n\t\"nam\": 1,\r\n\"format\": 2}").find("2:2: unknown key"), std::string::npos);
    EXPECT_NE(faults_of_text("{\r\n\t\"nam\": 1,\r\n\"format\": 2}").find("3:11: \"format\" wants"), std::string::npos);
}

TEST(json, numbers_too_large_are_found_outside_strings_only) {
    const std::string_view too_large = ": number is too large, numbers are at most 1.7976931348623157e+308\n";
    const std::string faults =
        faults_of_bones("{'name': 'a'}", "'extras': ['1e999 \\' 1e999', -1e999, 1e-999,\n 1e9999999999999999999]");
    EXPECT_EQ(faults, "2:30" + std::string(too_large) + "3:2" + std::string(too_large));
}

}  // namespace
}  // namespace ligament::testing
