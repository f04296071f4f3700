// Are components those that a reachability matrix shows, for every small digraph and for textbook ones?
#include "components.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "naive_graph.hpp"

namespace ligament {
namespace {

using testing::Arcs;
using testing::Digraph;

#if defined(__SANITIZE_ADDRESS__)
constexpr bool sanitized = true;
#else
constexpr bool sanitized = false;
#endif

Rows rows_of(const Digraph& graph) {
    Rows rows;
    for (unsigned v = 0; v < graph.size(); ++v) {
        for (unsigned u = 0; u < graph.size(); ++u)
            if (graph.arc[u][v]) rows.needs.push_back(u);
        rows.first.push_back(static_cast<std::uint32_t>(rows.needs.size()));
    }
    return rows;
}

/// Every vertex once, components after what they need, members ascending, numbers as in the list.
void expect_sound(const Digraph& graph, const Condensation& condensation) {
    std::vector<bool> seen(graph.size(), false);
    for (std::uint32_t c = 0; c < condensation.size(); ++c) {
        ASSERT_TRUE(std::is_sorted(condensation.of(c).begin(), condensation.of(c).end()));
        for (std::uint32_t v : condensation.of(c)) {
            ASSERT_EQ(condensation.component_of[v], c);
            ASSERT_FALSE(seen[v]);
            seen[v] = true;
        }
    }
    ASSERT_EQ(std::count(seen.begin(), seen.end(), true), graph.size());
    for (const auto& [from, to] : graph.arcs()) ASSERT_LE(condensation.component_of[from], condensation.component_of[to]);
}

void expect_same_as_naive(const Digraph& graph) {
    const Rows rows = rows_of(graph);
    const Condensation condensation = find_components(rows);
    expect_sound(graph, condensation);
    const std::vector<unsigned> naive = testing::naive_components(graph);
    const std::vector<std::vector<char>> reach = testing::naive_reach(graph);
    for (unsigned v = 0; v < graph.size(); ++v) {
        ASSERT_EQ(condensation.of(condensation.component_of[v]).front(), naive[v]);
        ASSERT_EQ(has_cycle(rows, condensation, condensation.component_of[v]), reach[v][v]);
    }
}

TEST(Components, AreThoseOfTheReachabilityMatrixForAllDigraphsOfUpToFourVertices) {
    for (unsigned size = 1; size <= 4; ++size)
        for (std::uint64_t number = 0; number < testing::count_digraphs(size, true); ++number) {
            expect_same_as_naive(testing::nth_digraph(size, true, number));
            if (HasFatalFailure()) FAIL() << "digraph " << number << " of size " << size;
        }
}

struct Count {
    unsigned acyclic = 0, connected = 0;
};

Count count_kinds(unsigned size) {
    Count count;
    for (std::uint64_t number = 0; number < testing::count_digraphs(size, false); ++number) {
        const std::uint32_t components = find_components(rows_of(testing::nth_digraph(size, false, number))).size();
        if (components == size) ++count.acyclic;
        if (components == 1) ++count.connected;
    }
    return count;
}

// On-Line Encyclopedia of Integer Sequences, from memory: A003024 (acyclic), A003030 (strongly connected).
TEST(Components, CountsOfAllLabelledDigraphsAreThoseOfTheEncyclopediaOfSequences) {
    const std::vector<Count> published{{1, 1}, {3, 1}, {25, 18}, {543, 1606}, {29281, 565080}};
    for (unsigned size = 1; size <= (sanitized ? 4u : 5u); ++size) {
        const Count count = count_kinds(size);
        EXPECT_EQ(count.acyclic, published[size - 1].acyclic) << size;
        EXPECT_EQ(count.connected, published[size - 1].connected) << size;
    }
}

Digraph lettered(const std::string& letters, const std::string& arcs) {
    Digraph graph(static_cast<unsigned>(letters.size()));
    for (std::size_t i = 0; i + 1 < arcs.size(); i += 3) graph.arc[letters.find(arcs[i])][letters.find(arcs[i + 1])] = true;
    return graph;
}

std::set<std::string> lettered_components(const std::string& letters, const Digraph& graph) {
    const Condensation condensation = find_components(rows_of(graph));
    std::set<std::string> result;
    for (std::uint32_t c = 0; c < condensation.size(); ++c) {
        std::string members;
        for (std::uint32_t v : condensation.of(c)) members += letters[v];
        result.insert(members);
    }
    return result;
}

// Cormen, Leiserson, Rivest, Stein, Introduction to Algorithms, the figure on strongly connected components; edges from memory.
TEST(Components, OfTheTextbookFigureOfCormenAndOthers) {
    const Digraph graph = lettered("abcdefgh", "ab bc be bf cd cg dc dh ea ef fg gf gh hh");
    EXPECT_EQ(lettered_components("abcdefgh", graph), (std::set<std::string>{"abe", "cd", "fg", "h"}));
    const Rows rows = rows_of(graph);
    const Condensation condensation = find_components(rows);
    for (unsigned v = 0; v < 8; ++v) EXPECT_TRUE(has_cycle(rows, condensation, condensation.component_of[v])) << v;
}

// Sedgewick and Wayne, Algorithms, tinyDG; edges from memory.
TEST(Components, OfSedgewicksTinyDigraph) {
    const Digraph graph(13, {{4, 2},   {2, 3},  {3, 2}, {6, 0}, {0, 1}, {2, 0}, {11, 12}, {12, 9}, {9, 10}, {9, 11}, {7, 9},
                             {10, 12}, {11, 4}, {4, 3}, {3, 5}, {6, 8}, {8, 6}, {5, 4},   {0, 5},  {6, 4},  {6, 9},  {7, 6}});
    EXPECT_EQ(lettered_components("0123456789abc", graph), (std::set<std::string>{"1", "02345", "9abc", "68", "7"}));
}

// Lengauer and Tarjan, A fast algorithm for finding dominators, ACM TOPLAS 1, 1979, the figure.
TEST(Components, OfLengauersAndTarjansFigureIsOneOfThirteen) {
    const std::string letters = "RABCDEFGHIJKL";
    const Digraph graph = lettered(letters, "RA RB RC AD BA BD BE CF CG DL EH FI GI GJ HE HK IK JI KI KR LH");
    EXPECT_EQ(find_components(rows_of(graph)).size(), 1u);
}

TEST(Components, OfNothingAreNone) { EXPECT_EQ(find_components(Rows{}).size(), 0u); }

constexpr std::uint32_t many = sanitized ? 200'000 : 1'000'000;

// Each vertex needs the next one: depth-first search goes as deep as there are vertices.
TEST(Components, OfAChainAndARingOfAMillionAreFoundWithoutRecursion) {
    Rows chain;
    for (std::uint32_t v = 0; v < many; ++v) {
        if (v + 1 < many) chain.needs.push_back(v + 1);
        chain.first.push_back(static_cast<std::uint32_t>(chain.needs.size()));
    }
    EXPECT_EQ(find_components(chain).size(), many);
    Rows ring = chain;
    ring.needs.push_back(0);
    ++ring.first.back();
    const Condensation condensation = find_components(ring);
    EXPECT_EQ(condensation.size(), 1u);
    EXPECT_TRUE(has_cycle(ring, condensation, 0));
}

// A ring with a chain that leads into it and one that leaves it, so that peeling leaves the first chain to the search.
TEST(Components, OfALongChainBeforeARingAreOneAVertex) {
    Rows rows;
    for (std::uint32_t v = 0; v < many; ++v) {
        if (v > 0) rows.needs.push_back(v - 1);
        if (v == many / 2) rows.needs.push_back(v + 1);  // closes a ring of two
        rows.first.push_back(static_cast<std::uint32_t>(rows.needs.size()));
    }
    EXPECT_EQ(find_components(rows).size(), many - 1);
}

}  // namespace
}  // namespace ligament
