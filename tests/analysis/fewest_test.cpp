// Are walks the cheapest, then the shortest, then the first in file order?
#include "fewest.hpp"

#include <gtest/gtest.h>

#include <string>

#include "naive_graph.hpp"

namespace ligament {
namespace {

using testing::Digraph;

/// Every arc has the price 1, unless it leaves a vertex from `free_from` on.
PricedRows priced(const Digraph& graph, unsigned free_from) {
    PricedRows result;
    for (unsigned v = 0; v < graph.size(); ++v) {
        for (unsigned u = 0; u < graph.size(); ++u) {
            if (!graph.arc[u][v]) continue;
            result.edge.push_back(static_cast<std::uint32_t>(result.rows.needs.size()));
            result.rows.needs.push_back(u);
            result.price.push_back(u < free_from ? 1 : 0);
        }
        result.rows.first.push_back(static_cast<std::uint32_t>(result.rows.needs.size()));
    }
    return result;
}

/// Bellman and Ford's way: the least of 100 * price + edges over walks of at least one arc.
std::vector<std::vector<unsigned>> naive_costs(const Digraph& graph, unsigned free_from) {
    constexpr unsigned never = 1'000'000;
    const unsigned size = graph.size();
    std::vector<std::vector<unsigned>> cost(size, std::vector<unsigned>(size, never));
    for (unsigned round = 0; round <= size; ++round)
        for (const auto& [u, v] : graph.arcs()) {
            const unsigned step = (u < free_from ? 100 : 0) + 1;
            cost[u][v] = std::min(cost[u][v], step);
            for (unsigned w = 0; w < size; ++w) cost[u][w] = std::min(cost[u][w], step + cost[v][w]);
        }
    return cost;
}

std::string dump(const PricedRows& graph, const Walk& walk) {
    std::string text;
    for (std::uint32_t position : walk.positions) text += std::to_string(graph.rows.needs[position]) + " ";
    return walk.positions.empty() ? "none" : text + std::to_string(walk.end);
}

void expect_walk(const PricedRows& graph, const Walk& walk, unsigned from, unsigned to) {
    ASSERT_EQ(graph.rows.needs[walk.positions.front()], from);
    ASSERT_EQ(walk.end, to);
    for (std::size_t i = 0; i < walk.positions.size(); ++i) {
        const std::uint32_t next = i + 1 < walk.positions.size() ? graph.rows.needs[walk.positions[i + 1]] : walk.end;
        ASSERT_GE(walk.positions[i], graph.rows.first[next]);
        ASSERT_LT(walk.positions[i], graph.rows.first[next + 1]);
    }
}

void expect_same_as_naive(const Digraph& graph, unsigned free_from) {
    const PricedRows rows = priced(graph, free_from);
    const std::vector<std::vector<unsigned>> costs = naive_costs(graph, free_from);
    FewestSearch search(rows);
    for (std::uint32_t u = 0; u < graph.size(); ++u)
        for (std::uint32_t v = 0; v < graph.size(); ++v) {
            const std::uint32_t starts[] = {u}, ends[] = {v};
            const Walk walk = search.find(starts, ends, false);
            ASSERT_EQ(walk.positions.empty(), costs[u][v] == 1'000'000);
            if (walk.positions.empty()) continue;
            ASSERT_EQ(walk.price * 100 + walk.positions.size(), costs[u][v]);
            expect_walk(rows, walk, u, v);
            ASSERT_TRUE(search.find(starts, ends, false, walk.price).positions.empty()) << "nothing is cheaper";
        }
}

TEST(FewestSearch, FindsWalksAsCheapAndShortAsThereAreInAllDigraphsOfUpToFourVertices) {
    for (unsigned size = 1; size <= 4; ++size)
        for (std::uint64_t number = 0; number < testing::count_digraphs(size, size < 4); ++number)
            for (unsigned free_from = 0; free_from <= size; ++free_from) {
                expect_same_as_naive(testing::nth_digraph(size, size < 4, number), free_from);
                if (HasFatalFailure()) FAIL() << "digraph " << number << " of size " << size << ", free from " << free_from;
            }
}

TEST(FewestSearch, GoesOnToTheFirstVertexInFileOrderAmongEqualWays) {
    // 4 -> {2, 1} -> 3 -> 0, and 4 -> 5 -> 3: the way over 1 comes first.
    const PricedRows rows = priced(Digraph(6, {{4, 2}, {2, 3}, {4, 1}, {1, 3}, {3, 0}, {4, 5}, {5, 3}}), 6);
    const std::uint32_t starts[] = {4}, ends[] = {0};
    EXPECT_EQ(dump(rows, FewestSearch(rows).find(starts, ends, false)), "4 1 3 0");
}

TEST(FewestSearch, LowerPriceGoesBeforeFewerEdges) {
    // Two priced edges, or one priced edge and three free ones.
    const PricedRows rows = priced(Digraph(6, {{0, 1}, {1, 2}, {0, 3}, {3, 4}, {4, 5}, {5, 2}}), 3);
    const std::uint32_t starts[] = {0}, ends[] = {2};
    EXPECT_EQ(dump(rows, FewestSearch(rows).find(starts, ends, false)), "0 3 4 5 2");
}

TEST(FewestSearch, StartsByLeavingWhereAskedTo) {
    // From 3 (free) or 0 (priced) to 1: only the edge of 0 has a price.
    const PricedRows rows = priced(Digraph(4, {{3, 1}, {0, 2}, {2, 1}}), 1);
    const std::uint32_t starts[] = {0, 3}, ends[] = {1};
    EXPECT_EQ(dump(rows, FewestSearch(rows).find(starts, ends, false)), "3 1");
    EXPECT_EQ(dump(rows, FewestSearch(rows).find(starts, ends, true)), "0 2 1");
}

TEST(FewestSearch, LeavesOutWhatWasRemoved) {
    const PricedRows rows = priced(Digraph(4, {{0, 1}, {1, 3}, {0, 2}, {2, 3}}), 4);
    const std::uint32_t starts[] = {0}, ends[] = {3};
    FewestSearch search(rows);
    EXPECT_EQ(dump(rows, search.find(starts, ends, false)), "0 1 3");
    search.remove(1);
    EXPECT_EQ(dump(rows, search.find(starts, ends, false)), "0 2 3");
    search.remove(2);
    EXPECT_EQ(dump(rows, search.find(starts, ends, false)), "none");
}

// Lengauer and Tarjan, ACM TOPLAS 1, 1979, the figure: the shortest circuit through R has 5 arcs. The number was computed, by
// independent programs.
TEST(FewestSearch, ShortestCircuitThroughTheRootOfLengauersAndTarjansFigureHasFiveArcs) {
    const std::string letters = "RABCDEFGHIJKL", arcs = "RA RB RC AD BA BD BE CF CG DL EH FI GI GJ HE HK IK JI KI KR LH";
    Digraph graph(13);
    for (std::size_t i = 0; i < arcs.size(); i += 3) graph.arc[letters.find(arcs[i])][letters.find(arcs[i + 1])] = true;
    const PricedRows rows = priced(graph, 13);
    const std::uint32_t ends[] = {0};
    EXPECT_EQ(FewestSearch(rows).find(ends, ends, false).price, 5u);
}

}  // namespace
}  // namespace ligament
