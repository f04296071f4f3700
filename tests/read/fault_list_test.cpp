// Are all faults told in the order of their places, and how many there are where there are too many?
#include "fault_list.hpp"

#include <gtest/gtest.h>

#include "ligament/read.hpp"

namespace ligament::testing {
namespace {

TEST(fault_list, is_in_the_order_of_places) {
    FaultList list;
    EXPECT_TRUE(list.empty());
    list.add({{2, 1}, "c", {}});
    list.add({{1, 9}, "b", {}});
    list.add({{2, 1}, "d", {}});
    list.add({{1, 2}, "a", {}});
    EXPECT_FALSE(list.empty());
    std::string order;
    for (const Fault& fault : list.take()) order += fault.message;
    EXPECT_EQ(order, "abcd");
    EXPECT_TRUE(list.empty());
}

TEST(fault_list, of_just_as_many_as_may_be_says_nothing_more) {
    FaultList list;
    for (std::uint32_t i = 0; i < FaultList::limit; ++i) list.add({{1, i + 1}, "x", {}});
    const std::vector<Fault> faults = list.take();
    EXPECT_EQ(faults.size(), 100'000);
    EXPECT_EQ(faults.back().message, "x");
}

TEST(fault_list, says_how_many_more_there_are) {
    std::string text = R"({"asset": {"version": "2.0"}, "nodes": [{"children": [)";
    for (int i = 0; i < 100'005; ++i) text += i > 0 ? ",-1" : "-1";
    const ReadResult result = read_gltf(text + "]}]}", {});
    ASSERT_FALSE(result.rig);
    ASSERT_EQ(result.faults.size(), 100'001);
    EXPECT_EQ(result.faults[0].pointer, "/nodes/0/children/0");
    EXPECT_EQ(result.faults[99'999].pointer, "/nodes/0/children/99999");
    EXPECT_EQ(result.faults.back().message, "and 5 more faults, listed are 100000");
}

}  // namespace
}  // namespace ligament::testing
