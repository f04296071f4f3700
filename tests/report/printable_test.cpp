// Is text of unknown origin made safe, measured and wrapped rightly?
#include <gtest/gtest.h>

#include "ligament/report.hpp"

namespace ligament::testing {

TEST(Printable, SpellsOutControlsAndDirectionMarks) {
    EXPECT_EQ(printable("wing_l"), "wing_l");
    EXPECT_EQ(printable("a\x1b[31mb"), "a\\x1b[31mb");
    EXPECT_EQ(printable(std::string_view("nul\0", 4)), "nul\\x00");
    EXPECT_EQ(printable("\x7f"), "\\x7f");
    EXPECT_EQ(printable("\xc2\x9b"), "\\x9b");                // C1: control sequence introducer
    EXPECT_EQ(printable("\xe2\x80\xae"), "\\u202e");          // right-to-left override
    EXPECT_EQ(printable("\xef\xbb\xbf"), "\\ufeff");          // byte order mark
    EXPECT_EQ(printable("\xf3\xa0\x80\x81"), "\\U000e0001");  // tag character
}

TEST(Printable, KeepsScriptsOfAllKinds) {
    for (const char* text : {"Flügel", "羽", "عنق", "кость", "🐦"}) EXPECT_EQ(printable(text), text);
}

// RFC 3629: overlong forms, surrogates and values above U+10FFFF are no UTF-8.
TEST(Printable, SpellsOutBytesThatAreNoUtf8) {
    EXPECT_EQ(printable("a\xff"), "a\\xff");
    EXPECT_EQ(printable("\xc0\xaf"), "\\xc0\\xaf");
    EXPECT_EQ(printable("\xed\xa0\x80"), "\\xed\\xa0\\x80");
    EXPECT_EQ(printable("\xf4\x90\x80\x80"), "\\xf4\\x90\\x80\\x80");
    EXPECT_EQ(printable("\xe7\xbe"), "\\xe7\\xbe");
}

// Unicode Standard Annex #11: ideographs take two columns; combining marks none.
TEST(Columns, CountsWideAndCombiningCharacters) {
    EXPECT_EQ(columns_of(""), 0U);
    EXPECT_EQ(columns_of("wing"), 4U);
    EXPECT_EQ(columns_of("羽根"), 4U);
    EXPECT_EQ(columns_of("e\xcc\x81"), 1U);
    EXPECT_EQ(columns_of("Flügel"), 6U);
    EXPECT_EQ(columns_of("한"), 2U);
}

TEST(Wrapped, BreaksAtSpacesAndKeepsLongWordsWhole) {
    EXPECT_EQ(wrapped("", 2, 30), "");
    EXPECT_EQ(wrapped("one two", 2, 30), "  one two\n");
    EXPECT_EQ(wrapped("aaaaaaaaaa bbbbbbbbb ccccc", 0, 20), "aaaaaaaaaa bbbbbbbbb\nccccc\n");
    EXPECT_EQ(wrapped("a bbbbbbbbbbbbbbbbbbbbbbbbbbbbbb c", 1, 20), " a\n bbbbbbbbbbbbbbbbbbbbbbbbbbbbbb\n c\n");
    EXPECT_EQ(wrapped("羽羽羽羽羽 羽羽羽羽羽 羽", 0, 20), "羽羽羽羽羽\n羽羽羽羽羽 羽\n");
}

TEST(Wrapped, NeverLeavesLessThanTwentyColumns) {
    EXPECT_EQ(wrapped("aaaaaaaaa bbbbbbbbb c", 10, 5), "          aaaaaaaaa bbbbbbbbb\n          c\n");
}

TEST(PlaceText, LeavesOutWhatIsUnknown) {
    EXPECT_EQ(place_text("a.json", {3, 7}), "a.json:3:7");
    EXPECT_EQ(place_text("a.json", {}), "a.json");
    EXPECT_EQ(place_text("a\x1b", {1, 1}), "a\\x1b:1:1");
}

TEST(CountedText, KnowsOneAndNone) {
    EXPECT_EQ(counted_text(0, "error"), "no errors");
    EXPECT_EQ(counted_text(1, "error"), "1 error");
    EXPECT_EQ(counted_text(2, "error"), "2 errors");
}

}  // namespace ligament::testing
