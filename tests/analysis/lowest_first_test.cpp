// LowestFirst against std::set.
#include "lowest_first.hpp"

#include <gtest/gtest.h>

#include <set>

#include "naive_graph.hpp"

namespace ligament {
namespace {

TEST(LowestFirst, TakesWhatASetWouldHaveFirst) {
    testing::Random random(3);
    for (const std::uint32_t size : {1u, 63u, 64u, 65u, 4096u, 4097u, 300'000u}) {
        LowestFirst numbers(size);
        std::set<std::uint32_t> expected;
        for (unsigned round = 0; round < 2000; ++round) {
            ASSERT_EQ(numbers.empty(), expected.empty()) << size;
            if (expected.empty() || random.below(3) != 0) {
                const std::uint32_t number = random.below(size);
                numbers.insert(number);
                expected.insert(number);
            } else {
                ASSERT_EQ(numbers.take_lowest(), *expected.begin()) << size;
                expected.erase(expected.begin());
            }
        }
    }
}

TEST(LowestFirst, HoldsTheLastNumberOfItsRange) {
    for (const std::uint32_t size : {1u, 64u, 4096u, 262'144u}) {
        LowestFirst numbers(size);
        numbers.insert(size - 1);
        EXPECT_EQ(numbers.take_lowest(), size - 1);
        EXPECT_TRUE(numbers.empty());
    }
    EXPECT_TRUE(LowestFirst(0).empty());
}

}  // namespace
}  // namespace ligament
