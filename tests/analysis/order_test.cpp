// Does the order hold, with ties broken by the file, and are levels and the longest chain right?
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "digraph_rig.hpp"
#include "ligament/facts.hpp"
#include "naive_graph.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::Digraph;
using testing::HandEdge;
using testing::tiny_rig;

#if defined(__SANITIZE_ADDRESS__)
constexpr unsigned many = 200'000;
#else
constexpr unsigned many = 1'000'000;
#endif

std::string names_of(const Rig& rig, const std::vector<BoneId>& bones) {
    std::string text;
    for (BoneId b : bones) text += (text.empty() ? "" : " ") + rig.bones[b].name;
    return text;
}

std::string order_of(const Rig& rig) { return names_of(rig, find_order(rig, build_dependencies(rig)).bones); }

std::string levels_of(const Rig& rig) {
    std::string text;
    for (const std::vector<BoneId>& level : find_order(rig, build_dependencies(rig)).levels)
        text += (text.empty() ? "" : " | ") + names_of(rig, level);
    return text;
}

/// "a -parent b-> b -driver c/rotation.x-> c"
std::string chain_of(const Rig& rig) {
    const Dependencies dependencies = build_dependencies(rig);
    const Order order = find_order(rig, dependencies);
    std::string text;
    for (std::size_t i = 0; i < order.longest_chain.size(); ++i) {
        text += rig.bones[order.longest_chain[i]].name;
        if (i == order.longest_chain_edges.size()) break;
        const FoldedEdge& edge = order.longest_chain_edges[i];
        text += " -" + std::string(name_of(edge.kind)) + " " + name_of(rig, dependencies, edge.maker);
        for (MakerId maker : edge.through) text += " + " + name_of(rig, dependencies, maker);
        text += "-> ";
        if (edge.to != order.longest_chain[i + 1]) text += rig.bones[edge.to].name + " .. ";
    }
    return text;
}

/// A rig whose bones are the letters and whose arcs are pairs of letters.
Rig lettered(const std::string& letters, const std::string& arcs) {
    Digraph graph(static_cast<unsigned>(letters.size()));
    for (std::size_t i = 0; i + 1 < arcs.size(); i += 3) graph.arc[letters.find(arcs[i])][letters.find(arcs[i + 1])] = true;
    Rig rig = testing::rig_of(graph);
    for (std::size_t i = 0; i < letters.size(); ++i) rig.bones[i].name = letters[i];
    return rig;
}

// ---- A naive order, on bones and properties with live and inert edges

struct NaiveOrder {
    std::vector<BoneId> bones;
    std::vector<unsigned> level;
};

/// For each pair of bones whether the second needs the first, straight or over properties.
Digraph folded(const Digraph& graph, unsigned bones) {
    Digraph inner(graph.size());
    for (const auto& [u, v] : graph.arcs()) inner.arc[u][v] = u >= bones && v >= bones;
    const std::vector<std::vector<char>> reach = testing::naive_reach(inner);
    Digraph result(bones);
    for (unsigned u = 0; u < bones; ++u)
        for (unsigned v = 0; v < bones; ++v) {
            result.arc[u][v] = graph.arc[u][v];
            for (unsigned p = bones; p < graph.size(); ++p)
                for (unsigned q = bones; q < graph.size(); ++q)
                    if (graph.arc[u][p] && (p == q || reach[p][q]) && graph.arc[q][v]) result.arc[u][v] = true;
        }
    return result;
}

NaiveOrder naive_order(unsigned size, unsigned bones, const std::vector<HandEdge>& edges) {
    Digraph live(size), all(size);
    for (const HandEdge& edge : edges) {
        all.arc[edge.from][edge.to] = true;
        if (!edge.inert) live.arc[edge.from][edge.to] = true;
    }
    const Digraph live_folded = folded(live, bones), all_folded = folded(all, bones);
    const std::vector<unsigned> live_component = testing::naive_components(live), all_component = testing::naive_components(all);
    const auto needs = [&](unsigned v, unsigned u) {
        return (live_folded.arc[u][v] && live_component[u] != live_component[v]) ||
               (all_folded.arc[u][v] && all_component[u] != all_component[v]);
    };
    NaiveOrder order;
    order.level.assign(bones, 0);
    std::vector<bool> done(bones, false);
    while (order.bones.size() < bones) {
        // The first bone in the file whose component has all that it needs.
        unsigned next = bones;
        for (unsigned b = 0; b < bones && next == bones; ++b) {
            if (done[b]) continue;
            bool ready = true;
            for (unsigned v = 0; v < bones; ++v)
                for (unsigned u = 0; u < bones; ++u)
                    if (live_component[v] == live_component[b] && needs(v, u) && !done[u]) ready = false;
            if (ready) next = b;
        }
        if (next == bones) return {};  // stuck
        unsigned level = 0;
        for (unsigned v = 0; v < bones; ++v)
            for (unsigned u = 0; u < bones; ++u)
                if (live_component[v] == live_component[next] && live_component[u] != live_component[v] && live_folded.arc[u][v])
                    level = std::max(level, order.level[u]);
        for (unsigned v = 0; v < bones; ++v) {
            if (live_component[v] != live_component[next]) continue;
            order.bones.push_back(v);
            order.level[v] = level + 1;
            done[v] = true;
        }
    }
    return order;
}

void expect_longest_chain(unsigned size, unsigned bones, const std::vector<HandEdge>& edges, const Order& order) {
    Digraph live(size);
    for (const HandEdge& edge : edges)
        if (!edge.inert) live.arc[edge.from][edge.to] = true;
    const Digraph live_folded = folded(live, bones);
    const std::vector<unsigned> component = testing::naive_components(live);
    ASSERT_EQ(order.longest_chain.size(), order.levels.size());
    for (std::size_t i = 0; i < order.longest_chain.size(); ++i) ASSERT_EQ(order.level[order.longest_chain[i]], i + 1);
    if (bones == 0) return;
    ASSERT_EQ(order.longest_chain_edges.size() + 1, order.longest_chain.size());
    ASSERT_EQ(order.longest_chain.back(), order.levels.back().front());
    for (std::size_t i = 0; i < order.longest_chain_edges.size(); ++i) {
        const FoldedEdge& edge = order.longest_chain_edges[i];
        ASSERT_EQ(edge.from, order.longest_chain[i]);
        ASSERT_EQ(component[edge.to], component[order.longest_chain[i + 1]]);
        ASSERT_TRUE(live_folded.arc[edge.from][edge.to]);
        // No bone before it in the file would do.
        for (unsigned u = 0; u < edge.from; ++u)
            for (unsigned v = 0; v < bones; ++v)
                ASSERT_FALSE(order.level[u] == i + 1 && component[v] == component[edge.to] && live_folded.arc[u][v]);
        MakerId before = edge.maker;
        ASSERT_EQ(edges[before].from, edge.from);
        for (MakerId maker : edge.through) {
            ASSERT_EQ(edges[before].to, edges[maker].from);
            before = maker;
        }
        ASSERT_EQ(edges[before].to, edge.to);
    }
}

void expect_naive_order(unsigned size, unsigned bones, const std::vector<HandEdge>& edges) {
    const Order order = find_order(testing::plain_rig(bones, size - bones), testing::dependencies_of(size, bones, edges));
    const NaiveOrder naive = naive_order(size, bones, edges);
    ASSERT_EQ(order.bones, naive.bones);
    ASSERT_EQ(order.level, naive.level);
    expect_longest_chain(size, bones, edges, order);
}

TEST(Order, IsTheNaiveOneForAllGraphsOfThreeVerticesWithLiveAndInertEdges) {
    for (unsigned bones = 0; bones <= 3; ++bones)
        for (unsigned number = 0; number < 19683; ++number) {  // 3 to the power of 9
            std::vector<HandEdge> edges;
            for (unsigned pair = 0, rest = number; pair < 9; ++pair, rest /= 3)
                if (rest % 3 != 0) edges.push_back({pair / 3, pair % 3, rest % 3 == 2});
            expect_naive_order(3, bones, edges);
            if (HasFatalFailure()) FAIL() << "graph " << number << " with " << bones << " bones";
        }
}

TEST(Order, IsTheNaiveOneForAllLiveDigraphsOfFourVertices) {
    for (unsigned bones = 1; bones <= 4; ++bones)
        for (std::uint64_t number = 0; number < testing::count_digraphs(4, false); ++number) {
            std::vector<HandEdge> edges;
            for (const auto& [u, v] : testing::nth_digraph(4, false, number).arcs()) edges.push_back({u, v, false});
            expect_naive_order(4, bones, edges);
            if (HasFatalFailure()) FAIL() << "digraph " << number << " with " << bones << " bones";
        }
}

TEST(Order, IsTheNaiveOneForLargerRandomGraphsWithLiveAndInertEdges) {
    testing::Random random(7);
    for (unsigned round = 0; round < 10'000; ++round) {
        const unsigned size = 4 + random.below(6);
        const unsigned bones = random.below(size + 1);
        std::map<std::pair<unsigned, unsigned>, bool> picked;
        for (unsigned count = random.below(2 * size); count > 0; --count) {
            const unsigned u = random.below(size), v = random.below(size);
            picked[{u, v}] = random.below(2) == 1;
        }
        std::vector<HandEdge> edges;
        for (const auto& [ends, inert] : picked) edges.push_back({ends.first, ends.second, inert});
        expect_naive_order(size, bones, edges);
        if (HasFatalFailure()) FAIL() << "round " << round;
    }
}

// ---- Textbook orders

// Cormen, Leiserson, Rivest, Stein, Introduction to Algorithms, getting dressed; edges from memory, the order by name computed.
// The file order here is that of the names.
TEST(Order, OfGettingDressed) {
    // B belt, J jacket, P pants, S shirt, C shoes, K socks, T tie, U undershorts, W watch
    EXPECT_EQ(order_of(lettered("BJPSCKTUW", "UP UC KC PC PB SB ST TJ BJ")), "S K T U P B J C W");
    EXPECT_EQ(find_order(lettered("BJPSCKTUW", "UP UC KC PC PB SB ST TJ BJ"),
                         build_dependencies(lettered("BJPSCKTUW", "UP UC KC PC PB SB ST TJ BJ")))
                  .levels.size(),
              4u);
}

// The same book, the exercise with vertices m to z; edges from memory, the order by name and the height computed.
TEST(Order, OfTheExerciseOfCormenAndOthers) {
    const Rig rig = lettered("mnopqrstuvwxyz", "mq mr mx no nq nu or os ov po ps pz qt ru ry sr ut vw vx wz yv");
    EXPECT_EQ(order_of(rig), "m n p o q s r u t y v w x z");
    EXPECT_EQ(find_order(rig, build_dependencies(rig)).levels.size(), 8u);
}

// ---- The rules, one by one

TEST(Order, KeepsTheFileWhereNothingNeedsAnything) {
    EXPECT_EQ(order_of(tiny_rig("{'name': 'c'}, {'name': 'a'}, {'name': 'b'}")), "c a b");
}

TEST(Order, PutsParentsBeforeChildren) {
    EXPECT_EQ(order_of(tiny_rig("{'name': 'a', 'parent': 'b'}, {'name': 'b', 'parent': 'c'}, {'name': 'c'}, {'name': 'd'}")),
              "c b a d");
}

TEST(Order, CountsDependenceThroughDriversPropertiesAndObjects) {
    EXPECT_EQ(
        order_of(tiny_rig(R"({'name': 'a', 'channels': {'rotation.x': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}},
                                   {'name': 'b', 'constraints': [{'kind': 'surface', 'from': {'object': 'o'}}]},
                                   {'name': 'c'}, {'name': 'd'})",
                          R"('objects': [{'name': 'o', 'follows': ['d']}],
                                   'properties': [{'name': 'p', 'value': {'expression': 'x',
                                       'inputs': {'x': {'bone': 'c', 'channel': 'scale.x'}}}}])")),
        "c a d b");
}

TEST(Order, PutsTheNeededBoneFirstForInertEdgesToo) {
    EXPECT_EQ(
        order_of(tiny_rig("{'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'b', 'enabled': false}]}, {'name': 'b'}")),
        "b a");
}

TEST(Order, GivesInertEdgesUpWhereTheyCloseACycle) {
    EXPECT_EQ(order_of(tiny_rig(R"({'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'b', 'enabled': false}]},
                                   {'name': 'b', 'constraints': [{'kind': 'scale', 'from': 'a', 'weight': 0}]}, {'name': 'c'})")),
              "a b c");
    // The live one of the two holds.
    EXPECT_EQ(order_of(tiny_rig(R"({'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'b'}]},
                                   {'name': 'b', 'constraints': [{'kind': 'scale', 'from': 'a', 'weight': 0}]}, {'name': 'c'})")),
              "b a c");
}

// d hangs on an inert solver inside an inert cycle: it waits for the target u, not for w, which only the cycle ties in.
TEST(Order, LooksThroughInertSolversForWhatIsNeeded) {
    EXPECT_EQ(order_of(tiny_rig(R"({'name': 'd', 'constraints': [{'kind': 'ik', 'chain': 1, 'target': 'u', 'enabled': false}]},
                                   {'name': 'u'}, {'name': 'w'})")),
              "u d w");
}

TEST(Order, KeepsTheBonesOfACycleTogether) {
    EXPECT_EQ(order_of(tiny_rig(R"({'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'd'}]},
                                   {'name': 'b'}, {'name': 'c', 'parent': 'a'},
                                   {'name': 'd', 'constraints': [{'kind': 'scale', 'from': 'a'}]})")),
              "a d b c");
}

TEST(Order, LevelsCountLiveEdgesAndBonesOnly) {
    EXPECT_EQ(levels_of(tiny_rig(R"({'name': 'a'}, {'name': 'b', 'parent': 'a'},
                                    {'name': 'c', 'constraints': [{'kind': 'scale', 'from': 'b', 'enabled': false}]},
                                    {'name': 'd', 'channels': {'scale.x': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}})",
                                 R"('properties': [{'name': 'p', 'value': {'expression': 'x',
                                       'inputs': {'x': {'bone': 'b', 'channel': 'scale.x'}}}}])")),
              "a c | b | d");
}

TEST(Order, BonesOfACycleShareALevel) {
    EXPECT_EQ(levels_of(tiny_rig(R"({'name': 'r'}, {'name': 'a', 'parent': 'r', 'constraints': [{'kind': 'scale', 'from': 'b'}]},
                                    {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'})")),
              "r | a b | c");
}

TEST(Order, LongestChainNamesAnEdgeBetweenNeighbours) {
    EXPECT_EQ(chain_of(tiny_rig(R"({'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'b2', 'parent': 'a'},
                                   {'name': 'd', 'channels': {'scale.x': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}})",
                                R"('properties': [{'name': 'p', 'value': {'expression': 'x + y',
                                       'inputs': {'x': {'bone': 'b2', 'channel': 'scale.x'},
                                                  'y': {'bone': 'b', 'channel': 'scale.x'}}}}])")),
              "a -parent b-> b -driver p + d/scale.x-> d");
}

TEST(Order, LongestChainLeavesACycleByTheBoneThatIsNeeded) {
    EXPECT_EQ(chain_of(tiny_rig(
                  R"({'name': 'r'}, {'name': 'a', 'parent': 'r', 'constraints': [{'name': 's', 'kind': 'scale', 'from': 'b'}]},
                                   {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'})")),
              "r -parent a-> a .. b -parent c-> c");
}

TEST(Order, OfNothingIsEmpty) {
    const Order order = find_order(Rig{}, build_dependencies(Rig{}));
    EXPECT_TRUE(order.bones.empty() && order.levels.empty() && order.longest_chain.empty());
}

// Each bone hangs under the next one in the file.
TEST(Order, OfAChainOfAMillionIsFoundWithoutRecursion) {
    Dependencies dependencies = testing::dependencies_of(many, many, {});
    Graph& graph = dependencies.bone;
    graph.edges.resize(many - 1);
    for (unsigned v = 0; v + 1 < many; ++v) {
        graph.edges[v].from = v + 1;
        graph.edges[v].maker = v & 0x1fff'ffffu;
        graph.edges[v].kind_bits = static_cast<std::uint32_t>(EdgeKind::parent);
        graph.rows[v + 1] = v + 1;
    }
    graph.rows[many] = many - 1;
    Rig rig;
    rig.bones.resize(many);
    const Order order = find_order(rig, dependencies);
    EXPECT_EQ(order.bones.front(), many - 1);
    EXPECT_EQ(order.levels.size(), many);
    EXPECT_EQ(order.longest_chain.size(), many);
    EXPECT_EQ(order.longest_chain.back(), 0u);
}

}  // namespace
}  // namespace ligament
