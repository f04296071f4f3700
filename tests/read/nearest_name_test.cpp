// Which known name did the writer of an unknown one mean?
#include "nearest_name.hpp"

#include <gtest/gtest.h>

#include "ligament/read.hpp"

namespace ligament {
namespace {

TEST(nearest_name, is_within_a_third_of_the_length) {
    EXPECT_EQ(nearest_name("wing", {"wings", "leg"}), "wings");
    EXPECT_EQ(nearest_name("wng", {"wing"}), "wing");
    EXPECT_EQ(nearest_name("wn", {"wing", "w"}), "") << "two characters leave no room for a change";
    EXPECT_EQ(nearest_name("shoulder", {"shuoldre"}), "shuoldre") << "two swaps";
    EXPECT_EQ(nearest_name("shoulder", {"elbow"}), "");
    EXPECT_EQ(nearest_name("abc", {"xbc", "abx"}), "xbc") << "ties go to the earlier one";
    EXPECT_EQ(nearest_name("abc", {}), "");
}

TEST(nearest_name, counts_insertions_deletions_changes_and_swaps) {
    // The distance is optimal string alignment: "kitten" to "sitting" takes 3 (a textbook figure, from memory), more than a third
    // of 6.
    EXPECT_EQ(nearest_name("kitten", {"sitting"}), "");
    EXPECT_EQ(nearest_name("kitten", {"sitten"}), "sitten");
    EXPECT_EQ(nearest_name("kitten___", {"sitting___"}), "sitting___");
    EXPECT_EQ(nearest_name("abcdef", {"abdcef"}), "abdcef");
    EXPECT_EQ(nearest_name("abc", {"bac"}), "bac") << "a swap is one step";
    EXPECT_EQ(nearest_name("abc", {"acb", "ab"}), "acb");
}

TEST(nearest_name, counts_characters_and_no_bytes) {
    EXPECT_EQ(nearest_name("\xE9\xB7\xBA\xE9\xB7\xBA\xE9\xB7\xBA", {"\xE9\xB7\xBA\xE9\xB7\xBA"}), "\xE9\xB7\xBA\xE9\xB7\xBA");
    EXPECT_EQ(nearest_name("\xE9\xB7\xBA", {"\xE9\xB7\xBB"}), "") << "one character leaves no room for a change";
}

// A plain table of the same distance, without bounds.
std::size_t plain_distance(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i)
        for (std::size_t j = 1; j <= b.size(); ++j) {
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
        }
    return d[a.size()][b.size()];
}

TEST(nearest_name, agrees_with_a_plain_table_of_distances) {
    std::uint32_t state = 1;
    const auto random = [&](std::uint32_t below) { return (state = state * 1664525U + 1013904223U) / 65536U % below; };
    for (int round = 0; round < 3000; ++round) {
        std::vector<std::string> words(4);
        for (std::string& word : words)
            for (std::uint32_t n = 1 + random(12); n > 0; --n) word += static_cast<char>('a' + random(3));
        std::string expected;
        std::size_t best = words[0].size() / 3 + 1;
        for (std::size_t i = 1; i < words.size(); ++i)
            if (const std::size_t distance = plain_distance(words[0], words[i]); distance < best) {
                best = distance;
                expected = words[i];
            }
        if (words[0].size() < 3) expected.clear();
        ASSERT_EQ(nearest_name(words[0], {words[1], words[2], words[3]}), expected)
            << words[0] << " " << words[1] << " " << words[2] << " " << words[3];
    }
}

TEST(nearest_name, stops_looking_when_the_budget_is_used_up) {
    NearestNameBudget budget{20};
    const std::vector<std::string_view> known{"wings"};
    EXPECT_EQ(find_nearest_name("wingd", known, budget), "wings");
    EXPECT_EQ(budget.cells, 0);
    EXPECT_EQ(find_nearest_name("wingd", known, budget), "");
}

}  // namespace
}  // namespace ligament
