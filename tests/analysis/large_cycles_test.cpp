// Are cycles found in linear time in long rings, and within the stated bound in dense ones?
#include <gtest/gtest.h>

#include <vector>

#include "digraph_rig.hpp"
#include "ligament/facts.hpp"
#include "naive_graph.hpp"

namespace ligament {
namespace {

using testing::Digraph;

#if defined(__SANITIZE_ADDRESS__)
constexpr unsigned many = 200'000;
#else
constexpr unsigned many = 1'000'000;
#endif

/// A dependency graph of bones alone, the same at all grains.
Dependencies bones_that_need(const std::vector<std::vector<unsigned>>& needs) {
    const auto size = static_cast<unsigned>(needs.size());
    Dependencies dependencies = testing::dependencies_of(size, size, {});
    Graph& graph = dependencies.bone;
    for (unsigned v = 0; v < size; ++v) {
        for (unsigned from : needs[v]) {
            Edge edge;
            edge.from = from;
            edge.maker = static_cast<std::uint32_t>(graph.edges.size()) & 0x1fff'ffffu;
            edge.kind_bits = static_cast<std::uint32_t>(EdgeKind::constraint);
            graph.edges.push_back(edge);
        }
        graph.rows[v + 1] = static_cast<std::uint32_t>(graph.edges.size());
    }
    dependencies.makers.resize(graph.edges.size());
    dependencies.step = dependencies.channel = LateGraph(graph);
    return dependencies;
}

TEST(LargeCycles, OfARingOfAMillionBonesAreFoundInSeconds) {
    std::vector<std::vector<unsigned>> needs(many);
    for (unsigned v = 0; v < many; ++v) needs[v] = {v == 0 ? many - 1 : v - 1};
    const std::vector<Cycle> cycles = find_cycles(Rig{}, bones_that_need(needs));
    ASSERT_EQ(cycles.size(), 1u);
    EXPECT_EQ(cycles[0].witness.size(), many);
    EXPECT_TRUE(cycles[0].witness_is_shortest);
    EXPECT_EQ(cycles[0].witness.front().from, 0u);
}

TEST(LargeCycles, OfARingOfTransformConstraintsAreFoundInLinearTime) {
    const unsigned size = many / 20;
    Rig rig = testing::plain_rig(size, 0);
    for (BoneId b = 0; b < size; ++b) {
        Constraint constraint;
        constraint.sources.emplace_back().bone = (b + 1) % size;
        rig.bones[b].constraints.push_back(constraint);
    }
    const std::vector<Cycle> cycles = find_cycles(rig, build_dependencies(rig));
    ASSERT_EQ(cycles.size(), 1u);
    EXPECT_EQ(cycles[0].grain, Grain::channel);
    EXPECT_EQ(cycles[0].witness.size(), size);
}

/// Two ways of the same length from bone 2h to bone 2h + 1, and one edge back. The first way is 0, h - 1, h - 2, ..., 1: once its
/// first bone is cut out, each bone left on it still leads back over the rest. The second is 2h - 1, ..., h: its last bone is cut
/// out first, and then nobody needs the others. Neither must be searched bone by bone.
TEST(LargeCycles, OfTwoLongWaysRoundAreFoundInLinearTime) {
    const unsigned half = many / 4, size = 2 * half + 2;
    std::vector<std::vector<unsigned>> needs(size);
    for (unsigned v = 0; v < 2 * half; ++v) needs[v] = {v + 1};
    needs[0] = needs[2 * half - 1] = {2 * half};
    needs[half - 1] = {0};
    needs[2 * half] = {2 * half + 1};
    needs[2 * half + 1] = {1, half};
    const std::vector<Cycle> cycles = find_cycles(Rig{}, bones_that_need(needs));
    ASSERT_EQ(cycles.size(), 1u);
    EXPECT_EQ(cycles[0].witness.size(), half + 2);
    EXPECT_TRUE(cycles[0].witness_is_shortest);
}

/// Every bone reads every other: the densest that there is. All cycles have at least two edges.
TEST(LargeCycles, OfAllBonesWithAllBonesAreFoundWithinTheBound) {
    const unsigned size = 150;
    Digraph graph(size);
    for (unsigned u = 0; u < size; ++u)
        for (unsigned v = 0; v < size; ++v) graph.arc[u][v] = u != v;
    const Rig rig = testing::rig_of(graph);
    const std::vector<Cycle> cycles = find_cycles(rig, build_dependencies(rig));
    ASSERT_EQ(cycles.size(), 1u);
    EXPECT_EQ(cycles[0].witness.size(), 2u);
}

/// A circulant digraph: each of 3000 bones needs the 200 before it. Its shortest cycle has 15 edges, every search looks at nearly
/// everything, and only 200 neighbours taken out together break the ring; the bound stops it before.
TEST(LargeCycles, SayWhenTheSearchStoppedAtItsBound) {
    const unsigned size = 3000, reach = 200;
    std::vector<std::vector<unsigned>> needs(size);
    for (unsigned v = 0; v < size; ++v)
        for (unsigned step = 1; step <= reach; ++step) needs[v].push_back((v + size - step) % size);
    const std::vector<Cycle> cycles = find_cycles(Rig{}, bones_that_need(needs));
    ASSERT_EQ(cycles.size(), 1u);
    EXPECT_EQ(cycles[0].witness.size(), size / reach) << "what was found first is the shortest all the same";
    EXPECT_FALSE(cycles[0].witness_is_shortest);
}

}  // namespace
}  // namespace ligament
