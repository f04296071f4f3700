// Are the candidates that cut a vertex off those without which it is not reached? With every vertex a candidate these are its
// dominators, which others have computed before.
#include "blocked_reach.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dominator_tree.hpp>
#include <map>
#include <set>
#include <string>

#include "naive_graph.hpp"

namespace ligament {
namespace {

using testing::Arcs;
using testing::Digraph;

Rows rows_of(const Digraph& graph) {
    Rows rows;
    for (unsigned v = 0; v < graph.size(); ++v) {
        for (unsigned u = 0; u < graph.size(); ++u)
            if (graph.arc[u][v]) rows.needs.push_back(u);
        rows.first.push_back(static_cast<std::uint32_t>(rows.needs.size()));
    }
    return rows;
}

struct Swept {
    Rows rows;
    Sweep order;

    explicit Swept(const Digraph& graph) : rows(rows_of(graph)) {
        const Condensation components = find_components(rows);
        order.first = components.first;
        order.members = components.members;
    }
};

Rows each_alone(unsigned size) {
    Rows candidates;
    for (unsigned v = 0; v < size; ++v) {
        candidates.needs.push_back(v);
        candidates.first.push_back(v + 1);
    }
    return candidates;
}

/// By vertex the candidates that cut it off, ascending; looked at in passes of `at_once`.
std::vector<std::vector<unsigned>> find_cutting(const Digraph& graph, const std::vector<unsigned>& starts, const Rows& candidates,
                                                std::size_t at_once) {
    const Swept swept(graph);
    BlockedReach reach(swept.rows, swept.order, std::vector<std::uint32_t>(starts.begin(), starts.end()), candidates);
    std::vector<std::vector<unsigned>> cutting(graph.size());
    for (std::size_t first = 0; first < reach.candidates(); first += at_once) {
        const std::size_t count = std::min(at_once, reach.candidates() - first);
        reach.look_at(first, count);
        for (unsigned v = 0; v < graph.size(); ++v)
            for (std::size_t i = 0; i < count; ++i)
                if (reach.is_reached(v) && !reach.avoidable(v).contains(i))
                    cutting[v].push_back(static_cast<unsigned>(first + i));
    }
    return cutting;
}

/// What the starts lead to over vertices that are not out.
std::vector<char> naive_reached(const Digraph& graph, const std::vector<unsigned>& starts, const std::vector<char>& is_out) {
    std::vector<char> seen(graph.size(), 0);
    std::vector<unsigned> going;
    for (unsigned v : starts)
        if (!is_out[v]) going.push_back(v);
    while (!going.empty()) {
        const unsigned u = going.back();
        going.pop_back();
        if (seen[u]) continue;
        seen[u] = 1;
        for (unsigned v = 0; v < graph.size(); ++v)
            if (graph.arc[u][v] && !is_out[v]) going.push_back(v);
    }
    return seen;
}

// T. Lengauer and R. E. Tarjan, A fast algorithm for finding dominators in a flowgraph, ACM TOPLAS 1 (1979), figure 1; arcs from
// memory, the dominators recomputed.
TEST(BlockedReach, FindsTheDominatorsOfTheFlowgraphOfLengauerAndTarjan) {
    const std::string letters = "RABCDEFGHIJKL";
    const std::string arcs = "RA RB RC AD BA BD BE CF CG DL EH FI GI GJ HE HK IK JI KI KR LH";
    Digraph graph(static_cast<unsigned>(letters.size()));
    for (std::size_t i = 0; i + 1 < arcs.size(); i += 3) graph.arc[letters.find(arcs[i])][letters.find(arcs[i + 1])] = true;
    const auto cutting = find_cutting(graph, {0}, each_alone(graph.size()), MarkSet::capacity);
    std::map<char, std::string> dominators;
    for (unsigned v = 0; v < graph.size(); ++v)
        for (unsigned u : cutting[v]) dominators[letters[v]] += letters[u];
    const std::map<char, std::string> expected{{'R', "R"},    {'A', "RA"},  {'B', "RB"},  {'C', "RC"}, {'D', "RD"},
                                               {'E', "RE"},   {'F', "RCF"}, {'G', "RCG"}, {'H', "RH"}, {'I', "RI"},
                                               {'J', "RCGJ"}, {'K', "RK"},  {'L', "RDL"}};
    EXPECT_EQ(dominators, expected);
}

/// By vertex its dominators along the tree that Boost finds by the method of Lengauer and Tarjan. Boost takes arcs from where the
/// root does not lead for ways in, so that these are left out; they dominate nothing.
std::vector<std::vector<unsigned>> dominators_by_boost(const Digraph& graph, unsigned root) {
    boost::adjacency_list<boost::vecS, boost::vecS, boost::bidirectionalS> boosted(graph.size());
    const std::vector<char> reached = naive_reached(graph, {root}, std::vector<char>(graph.size(), 0));
    for (const auto& [u, v] : graph.arcs())
        if (reached[u]) boost::add_edge(u, v, boosted);
    using Vertex = decltype(boosted)::vertex_descriptor;
    std::vector<Vertex> parents(graph.size(), boost::graph_traits<decltype(boosted)>::null_vertex());
    boost::lengauer_tarjan_dominator_tree(
        boosted, Vertex{root}, boost::make_iterator_property_map(parents.begin(), boost::get(boost::vertex_index, boosted)));
    std::vector<std::vector<unsigned>> dominators(graph.size());
    for (unsigned v = 0; v < graph.size(); ++v) {
        if (!reached[v]) continue;
        for (Vertex u = v; u != boost::graph_traits<decltype(boosted)>::null_vertex(); u = parents[u])
            dominators[v].push_back(static_cast<unsigned>(u));
        std::sort(dominators[v].begin(), dominators[v].end());
    }
    return dominators;
}

Digraph random_digraph(testing::Random& random, unsigned size, unsigned arcs) {
    Digraph graph(size);
    for (unsigned i = 0; i < arcs; ++i) graph.arc[random.below(size)][random.below(size)] = true;
    return graph;
}

TEST(BlockedReach, FindsTheDominatorsThatBoostFindsOnSeededDigraphs) {
    testing::Random random(31);
    for (unsigned round = 0; round < 1500; ++round) {
        const unsigned size = 1 + random.below(round % 10 == 0 ? 60 : 14);
        const Digraph graph = random_digraph(random, size, size + random.below(2 * size));
        const std::size_t at_once = round % 3 == 0 ? 3 : MarkSet::capacity;
        ASSERT_EQ(find_cutting(graph, {0}, each_alone(size), at_once), dominators_by_boost(graph, 0)) << "round " << round;
    }
}

TEST(BlockedReach, AgreesWithTakingCandidatesOutOnSeededDigraphs) {
    testing::Random random(32);
    for (unsigned round = 0; round < 2000; ++round) {
        const unsigned size = 2 + random.below(14);
        const Digraph graph = random_digraph(random, size, size + random.below(2 * size));
        std::vector<unsigned> starts, of(size);
        Rows candidates;
        for (unsigned v = 0; v < size; ++v) of[v] = random.below(5);  // 3 and 4: of no candidate
        for (unsigned c = 0; c < 3; ++c) {
            for (unsigned v = 0; v < size; ++v)
                if (of[v] == c) candidates.needs.push_back(v);
            candidates.first.push_back(static_cast<std::uint32_t>(candidates.needs.size()));
        }
        for (unsigned v = 0; v < size; ++v)
            if (random.below(3) == 0) starts.push_back(v);
        std::vector<std::vector<unsigned>> expected(size);
        const std::vector<char> reached = naive_reached(graph, starts, std::vector<char>(size, 0));
        for (unsigned c = 0; c < 3; ++c) {
            std::vector<char> is_out(size, 0);
            for (unsigned v = 0; v < size; ++v) is_out[v] = of[v] == c;
            const std::vector<char> left = naive_reached(graph, starts, is_out);
            for (unsigned v = 0; v < size; ++v)
                if (reached[v] && !left[v]) expected[v].push_back(c);
        }
        ASSERT_EQ(find_cutting(graph, starts, candidates, 1 + round % 3), expected) << "round " << round;
    }
}

TEST(BlockedReach, TellsWhichCandidatesLeadTo) {
    const Digraph graph(4, Arcs{{0, 1}, {1, 2}, {2, 1}, {2, 3}});
    const Swept swept(graph);
    BlockedReach reach(swept.rows, swept.order, std::vector<std::uint32_t>{0, 2}, each_alone(4));
    reach.look_at(0, 4);
    std::vector<std::size_t> to_last;
    reach.reaching(3).for_each([&](std::size_t i) { to_last.push_back(i); });
    EXPECT_EQ(to_last, (std::vector<std::size_t>{0, 2}));  // 1 and 3 are no starts
    reach.look_at(3, 1);
    EXPECT_FALSE(reach.is_touched(0));
    EXPECT_TRUE(reach.is_touched(3));
}

// A ring against the order of its numbers, entered at one vertex: the sets have to go once around.
TEST(BlockedReach, GrowsAlongALongRing) {
    constexpr unsigned size = 100'000;
    Rows rows, candidates;
    for (unsigned v = 0; v < size; ++v) {
        rows.needs.push_back((v + 1) % size);
        rows.first.push_back(v + 1);
    }
    for (unsigned c = 0; c < 256; ++c) {
        candidates.needs.push_back(c * 300);
        candidates.first.push_back(c + 1);
    }
    Sweep order;
    for (unsigned v = 0; v < size; ++v) order.members.push_back(v);
    order.first = {0, size};
    BlockedReach reach(rows, order, std::vector<std::uint32_t>{299}, candidates);
    reach.look_at(0, 256);
    const MarkSet at_end = reach.avoidable(300);  // the ways lead 299, 298, ... 0, 99999, ... 300
    EXPECT_FALSE(at_end.contains(0));
    EXPECT_FALSE(at_end.contains(255));
    EXPECT_FALSE(at_end.contains(1));
    EXPECT_TRUE(reach.avoidable(1).contains(0));
    EXPECT_FALSE(reach.avoidable(99'999).contains(0));
    EXPECT_TRUE(reach.avoidable(99'999).contains(255));
}

}  // namespace
}  // namespace ligament
