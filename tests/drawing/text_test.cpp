#include "text.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <memory>

namespace ligament {
namespace {

TEST(Text, WidthsOfOneLine) {
    EXPECT_DOUBLE_EQ(width_of("wing", 10), 24);
    EXPECT_DOUBLE_EQ(width_of("\u9dfa", 10), 10);        // wide
    EXPECT_DOUBLE_EQ(width_of("e\u0301", 10), 6);        // a combining accent adds nothing
    EXPECT_DOUBLE_EQ(width_of("\u05d0\u05d1", 10), 12);  // Hebrew
    EXPECT_DOUBLE_EQ(width_of("", 10), 0);
}

TEST(Text, MalformedBytesAreReplacedOneByOne) {
    EXPECT_EQ(drawable("a\xff"
                       "b"),
              "a\uFFFD"
              "b");
    EXPECT_EQ(drawable("\xc0\x80"), "\uFFFD\uFFFD");            // overlong
    EXPECT_EQ(drawable("\xed\xa0\x80"), "\uFFFD\uFFFD\uFFFD");  // surrogate
    EXPECT_EQ(drawable("\xf0\x9f\xa6"), "\uFFFD\uFFFD\uFFFD");  // cut short
}

TEST(Text, WhatXmlCannotHoldIsReplaced) {
    EXPECT_EQ(drawable(std::string_view("a\0b", 3)),
              "a\uFFFD"
              "b");
    EXPECT_EQ(drawable("\x01\x1f\x7f"), "\uFFFD\uFFFD\uFFFD");
    EXPECT_EQ(drawable("\uFFFE\uFFFF"), "\uFFFD\uFFFD");
    EXPECT_EQ(drawable("\t\n\r"), "\u2409\u240a\u240d");  // visible, and told apart
}

TEST(Text, ControlsOfDirectionStayInsideTheName) {
    EXPECT_EQ(drawable("\u202egnp.exe"), "\uFFFDgnp.exe");
    EXPECT_EQ(drawable("a\u2069\u202e"), "a\uFFFD\uFFFD");
    EXPECT_EQ(isolated("wing"), "wing");
    EXPECT_EQ(isolated("\u05d0_l"), "\u2068\u05d0_l\u2069");
}

TEST(Text, LongNamesAreCutInTheMiddle) {
    EXPECT_EQ(cut_in_middle("shoulder", 10, 48), "shoulder");
    EXPECT_EQ(cut_in_middle("shoulder", 10, 42), "sho\u2026der");
    EXPECT_EQ(cut_in_middle("ae\u0301iou", 10, 24), "ae\u0301\u2026u");  // the accent stays with its letter
    EXPECT_LE(width_of(cut_in_middle(std::string(1000, 'x'), 12, 190), 12), 190);
}

TEST(Text, Entities) { EXPECT_EQ(escaped("<a b=\"c\" d='e'>&</a>"), "&lt;a b=&quot;c&quot; d=&#39;e&#39;&gt;&amp;&lt;/a&gt;"); }

// The widths against the Unicode Character Database that Python carries (unicodedata): East_Asian_Width, UAX #11.
TEST(Text, WideIsWhatUnicodeCallsWideOrFullwidth) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> python(
        popen("python3 -c \"import unicodedata as u\n"
              "for c in range(0x110000):\n"
              "    k = u.category(chr(c))\n"
              "    if k not in ('Cn', 'Cs', 'Co', 'Mn', 'Me', 'Cf', 'Cc'):\n"
              "        print(c, int(u.east_asian_width(chr(c)) in 'WF'))\"",
              "r"),
        pclose);
    ASSERT_TRUE(python);
    unsigned code_point = 0, wide = 0, seen = 0, wrong = 0;
    while (std::fscanf(python.get(), "%u %u", &code_point, &wide) == 2) {
        ++seen;
        const double advance = advance_of(static_cast<char32_t>(code_point));
        if (advance == 0) continue;                                            // marks and separators that take no room
        if (!wide && code_point >= 0x1F300 && code_point < 0x1FB00) continue;  // pictures, all drawn wide
        wrong += advance != (wide ? 1.0 : 0.6);
    }
    EXPECT_GT(seen, 100'000u);
    EXPECT_LE(wrong, 60u);  // versions of Unicode differ by a few symbols
}

}  // namespace
}  // namespace ligament
