// Does a JSON document hold what its text holds, with places, pointers and all faults? Sources: RFC 8259 (JSON), RFC 6901 (JSON
// Pointer).
#include "json_document.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace ligament::testing {
namespace {

struct Read {
    JsonDocument json;
    std::string faults;  // "line:column pointer message" a line
};

Read read(std::string_view text, std::size_t value_limit = 1'000'000) {
    FaultList list;
    Read read{read_json_document(text, value_limit, list), {}};
    for (const Fault& fault : list.take())
        read.faults += std::to_string(fault.place.line) + ":" + std::to_string(fault.place.column) + " " + fault.pointer + " " +
                       fault.message + "\n";
    return read;
}

std::string repeated(std::string_view part, std::size_t count) {
    std::string text;
    for (std::size_t i = 0; i < count; ++i) text += part;
    return text;
}

TEST(json_document, points_at_values_as_the_standard_does) {
    // RFC 6901, section 5: the document and its pointers, in the order of the text.
    const std::string text =
        R"({"foo": ["bar", "baz"], "": 0, "a/b": 1, "c%d": 2, "e^f": 3, "g|h": 4, "i\\j": 5, "k\"l": 6, " ": 7, "m~n": 8})";
    const JsonDocument json = read(text).json;
    std::vector<std::string> pointers;
    for (std::uint32_t i = 0; i < json.items.size(); ++i) pointers.push_back(json.pointer_to(i));
    EXPECT_EQ(pointers, (std::vector<std::string>{"", "/foo", "/foo/0", "/foo/1", "/", "/a~1b", "/c%d", "/e^f", "/g|h", "/i\\j",
                                                  "/k\"l", "/ ", "/m~0n"}));
    // Section 4: ~ before /, so that "~1" in a key is no slash.
    const JsonDocument tilde = read(R"({"~1": [[0, {"//": 1}]]})").json;
    EXPECT_EQ(tilde.pointer_to(static_cast<std::uint32_t>(tilde.items.size() - 1)), "/~01/0/1/~1~1");
}

// What is wrong below a long key does not say that key again and again.
TEST(json_document, gives_no_pointers_that_are_too_long) {
    const auto pointer_below = [](const std::string& key) { return read("{\"" + key + "\": [0]}").json.pointer_to(2); };
    EXPECT_EQ(pointer_below(std::string(1'997, 'x')), "/" + std::string(1'997, 'x') + "/0");  // 2,000 characters
    EXPECT_EQ(pointer_below(std::string(1'998, 'x')), "");
    EXPECT_EQ(pointer_below(std::string(1'000'000, 'x')), "");
    EXPECT_EQ(pointer_below(std::string(1'500, '~')), "");
    const Read broken = read("{\"" + std::string(3'000, 'x') + "\": {\"a\": 1, \"a\": 2}}");
    EXPECT_EQ(broken.faults, "1:3020  key \"a\" stands twice in an object\n");
}

TEST(json_document, knows_the_places_of_values_and_keys) {
    // Columns count code points: the heron of U+1FABF is one.
    const JsonDocument json = read("{\n  \"\xF0\x9F\xAA\xBF\": \"x\", \"b\" :\n[true, null,-1.5e1]}").json;
    std::string places;
    for (const JsonItem& item : json.items)
        places += std::to_string(item.key_place.line) + ":" + std::to_string(item.key_place.column) + " " +
                  std::to_string(item.place.line) + ":" + std::to_string(item.place.column) + ", ";
    EXPECT_EQ(places, "0:0 1:1, 2:3 2:8, 2:13 3:1, 0:0 3:2, 0:0 3:8, 0:0 3:13, ");
    EXPECT_TRUE(json.is_complete);
    EXPECT_TRUE(json.items[3].flag);
    EXPECT_EQ(json.items[5].number, -15);
    EXPECT_EQ(json.find(0, "b"), 2);
    EXPECT_EQ(json.find(0, "c"), none);
    EXPECT_EQ(json.find(2, "b"), none);  // no object
    EXPECT_EQ(json.find(none, "b"), none);
    EXPECT_EQ(json.size_of(2), 3);
}

TEST(json_document, tells_all_faults_at_once) {
    const Read broken = read("{\"a\": 1e999,\n \"b\": {\"c\": 1, \"d\": 2, \"c\": 3, \"c\": 4},\n \"e\": [-1e400, 5]}");
    EXPECT_EQ(broken.faults,
              "1:7  number is too large, numbers are at most 1.7976931348623157e+308\n"
              "2:29 /b key \"c\" stands twice in an object\n"
              "2:37 /b key \"c\" stands twice in an object\n"
              "3:8  number is too large, numbers are at most 1.7976931348623157e+308\n");
    ASSERT_TRUE(broken.json.is_complete);
    // What is behind keeps its place.
    EXPECT_EQ(broken.json.items.back().place, (Place{3, 16}));
    EXPECT_EQ(broken.json.items.back().number, 5);
    // Keys are equal when they are equal decoded (RFC 8259, section 8.3).
    EXPECT_EQ(read(R"({"a": 1, "\u0061": 2})").faults, "1:20  key \"a\" stands twice in an object\n");
    EXPECT_EQ(read("[{\"a\": 1}, {\"a\": 2}]").faults, "");
}

TEST(json_document, that_breaks_off_is_not_complete) {
    const Read broken = read("{\"a\": [1, 2}");
    EXPECT_FALSE(broken.json.is_complete);
    EXPECT_EQ(broken.faults.substr(0, 5), "1:12 ") << broken.faults;
    EXPECT_FALSE(read("").json.is_complete);
}

TEST(json_document, is_read_to_a_depth_of_1000) {
    const Read deepest = read(repeated("[", 1'000) + repeated("]", 1'000));
    EXPECT_EQ(deepest.faults, "");
    EXPECT_EQ(deepest.json.items.size(), 1'000);
    const Read too_deep = read("[" + repeated("[", 1'000) + "7" + repeated("]", 1'000) + ", 8]");
    EXPECT_EQ(too_deep.faults, "1:1001  nested deeper than 1000\n");
    EXPECT_TRUE(too_deep.json.is_complete);
    EXPECT_EQ(too_deep.json.items.back().number, 8);
    EXPECT_EQ(too_deep.json.pointer_to(static_cast<std::uint32_t>(too_deep.json.items.size() - 1)), "/1");
}

TEST(json_document, of_100000_levels_is_one_fault) {
    constexpr std::size_t levels = 100'000;
    EXPECT_EQ(read(repeated("[", levels) + repeated("]", levels)).faults, "1:1001  nested deeper than 1000\n");
    const std::string objects = repeated("{\"a\":", levels) + "1" + repeated("}", levels);
    EXPECT_EQ(read(objects).faults, "1:5001  nested deeper than 1000\n");  // five characters a level
    const Read open = read(repeated("[", levels));
    EXPECT_FALSE(open.json.is_complete);
    EXPECT_EQ(std::count(open.faults.begin(), open.faults.end(), '\n'), 2) << open.faults;
}

TEST(json_document, has_a_limit_of_values) {
    EXPECT_EQ(read("[1, 2, 3]", 4).faults, "");
    const Read more = read("[1, 2, 3]", 3);
    EXPECT_EQ(more.faults, "1:8  more than 3 values, the text behind is not read\n");
    EXPECT_FALSE(more.json.is_complete);
    EXPECT_EQ(read("{\"a\": [], \"b\": {}}", 2).faults, "1:16  more than 2 values, the text behind is not read\n");
}

TEST(json_document, keeps_strings_with_escapes) {
    // RFC 8259, section 7. Many, so that whatever holds them has to grow.
    std::string text = "[";
    for (int i = 0; i < 1'000; ++i)
        text += "{\"k\\u00e9y" + std::to_string(i) + "\": \"\\ud83e\\udebf\\n" + std::to_string(i) + "\"},";
    text += "0]";
    Read first = read(text);
    const JsonDocument json = std::move(first.json);
    for (std::uint32_t i = 0; i < 1'000; ++i) {
        ASSERT_EQ(json.items[2 + 2 * i].key, "k\xC3\xA9y" + std::to_string(i));
        ASSERT_EQ(json.items[2 + 2 * i].text, "\xF0\x9F\xAA\xBF\n" + std::to_string(i));
    }
}

}  // namespace
}  // namespace ligament::testing
