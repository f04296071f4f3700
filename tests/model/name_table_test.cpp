// Does the table of names find what was added, and nothing else?
#include "name_table.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <set>
#include <string>
#include <vector>

namespace ligament {
namespace {

TEST(NameTable, FindsEachNameAndNoOther) {
    std::vector<std::string> names{""};
    for (int i = 0; i < 5'000; ++i) names.push_back(std::string(static_cast<std::size_t>(i % 40), 'n') + std::to_string(i));
    const auto text_of = [&](std::uint32_t id) -> std::string_view { return names[id]; };
    NameTable table;
    EXPECT_EQ(table.find("n", text_of), none);
    for (std::uint32_t id = 0; id < names.size(); ++id) EXPECT_EQ(table.find_or_add(names[id], id, text_of), id);
    for (std::uint32_t id = 0; id < names.size(); ++id) {
        EXPECT_EQ(table.find(names[id], text_of), id);
        EXPECT_EQ(table.find_or_add(names[id], none - 1, text_of), id);
        EXPECT_EQ(table.find(names[id] + "_", text_of), none);
    }
}

// Equal names hash alike; of names that differ in one byte, or by zeros behind them, hardly any do.
TEST(NameTable, HashesTellNamesApart) {
    std::set<std::uint32_t> hashes;
    std::size_t count = 0;
    for (std::size_t length = 0; length <= 24; ++length) {
        hashes.insert(hash_of_name(std::string(length, '\0')));
        ++count;
        for (std::size_t at = 0; at < length; ++at)
            for (int c = 'a'; c <= 'z'; ++c) {
                std::string name(length, '_');
                name[at] = static_cast<char>(c);
                EXPECT_EQ(hash_of_name(name), hash_of_name(std::string(name)));
                hashes.insert(hash_of_name(name));
                ++count;
            }
    }
    EXPECT_GE(hashes.size() + 10, count);  // of 8,000 hashes of 32 bits by chance 0.01 are equal
}

}  // namespace
}  // namespace ligament
