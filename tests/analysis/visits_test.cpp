// Visits over more searches than their two bytes can number.
#include "visits.hpp"

#include <gtest/gtest.h>

namespace ligament {
namespace {

TEST(Visits, AreOfOneSearchOnlyHoweverManyThereAre) {
    Visits visits(3);
    for (unsigned search = 0; search < 200'000; ++search) {
        visits.begin();
        ASSERT_FALSE(visits.has(1)) << search;
        if (search % 65'535 == 0) {
            ASSERT_TRUE(visits.enter(1));
            ASSERT_FALSE(visits.enter(1));
            ASSERT_TRUE(visits.has(1));
            ASSERT_FALSE(visits.has(2));
        }
    }
}

}  // namespace
}  // namespace ligament
