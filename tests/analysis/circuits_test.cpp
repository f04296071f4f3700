// Are elementary circuits found, the shortest first, and counted?
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "digraph_rig.hpp"
#include "figures.hpp"
#include "ligament/cycles.hpp"
#include "naive_graph.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::Digraph;
using testing::tiny_rig;

using Bones = std::vector<std::uint32_t>;

/// Circuits by trying every way on from their first vertex: by length, then by vertices.
struct NaiveCircuits {
    const Digraph& graph;
    std::vector<Bones> found{};
    Bones path{};

    void go_on() {
        for (unsigned v = path.front(); v < graph.size(); ++v) {
            if (!graph.arc[path.back()][v]) continue;
            if (v == path.front()) found.push_back(path);
            if (std::find(path.begin(), path.end(), v) != path.end()) continue;
            path.push_back(v);
            go_on();
            path.pop_back();
        }
    }
    std::vector<Bones> run() {
        for (unsigned v = 0; v < graph.size(); ++v) {
            path.assign(1, v);
            go_on();
        }
        std::sort(found.begin(), found.end(),
                  [](const Bones& a, const Bones& b) { return a.size() != b.size() ? a.size() < b.size() : a < b; });
        return found;
    }
};

struct Found {
    std::vector<Bones> circuits;  ///< of all components
    std::uint64_t count = 0;
    bool is_all_counted = true;
};

Found circuits_of(const Rig& rig, const Dependencies& dependencies, std::size_t wanted) {
    Found found;
    const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
    for (const Circuits& circuits : find_circuits(rig, dependencies, cycles, wanted)) {
        for (const Circuit& circuit : circuits.shortest) {
            Bones& bones = found.circuits.emplace_back();
            for (std::size_t i = 0; i < circuit.edges.size(); ++i) {
                bones.push_back(circuit.edges[i].from);
                EXPECT_EQ(circuit.edges[i].to, circuit.edges[(i + 1) % circuit.edges.size()].from);
            }
        }
        found.count += circuits.at_least;
        found.is_all_counted = found.is_all_counted && circuits.is_all_counted;
    }
    return found;
}

Found circuits_of(const Digraph& graph, std::size_t wanted = 1'000'000) {
    const Rig rig = testing::rig_of(graph);
    return circuits_of(rig, build_dependencies(rig), wanted);
}

void expect_naive(const Digraph& graph) {
    const std::vector<Bones> expected = NaiveCircuits{graph}.run();
    Found found = circuits_of(graph);
    ASSERT_EQ(found.count, expected.size());
    ASSERT_TRUE(found.is_all_counted);
    std::stable_sort(found.circuits.begin(), found.circuits.end(),
                     [](const Bones& a, const Bones& b) { return a.size() != b.size() ? a.size() < b.size() : a < b; });
    ASSERT_EQ(found.circuits, expected);
}

TEST(Circuits, AreThoseOfEveryWayOnForAllDigraphsOfUpToFourBones) {
    for (unsigned size = 1; size <= 4; ++size)
        for (std::uint64_t number = 0; number < testing::count_digraphs(size, size < 4); ++number) {
            expect_naive(testing::nth_digraph(size, size < 4, number));
            if (HasFatalFailure()) FAIL() << "digraph " << number << " of size " << size;
        }
}

TEST(Circuits, AreThoseOfEveryWayOnForRandomDigraphs) {
    testing::Random random(21);
    for (unsigned i = 0; i < 200; ++i) {
        const unsigned size = 5 + random.below(4);
        Digraph graph(size);
        for (unsigned a = 0; a < 3 * size; ++a) graph.arc[random.below(size)][random.below(size)] = 1;
        expect_naive(graph);
        if (HasFatalFailure()) FAIL() << "digraph " << i;
    }
}

/// The first circuits of a longer list are the shorter list.
TEST(Circuits, ComeShortestFirstThenInFileOrder) {
    testing::Random random(22);
    Digraph graph(12);
    for (unsigned v = 0; v < 12; ++v) graph.arc[v][(v + 1) % 12] = 1;
    for (unsigned a = 0; a < 24; ++a) graph.arc[random.below(12)][random.below(12)] = 1;
    const std::vector<Bones> all = NaiveCircuits{graph}.run();
    ASSERT_GT(all.size(), 50U);
    for (std::size_t wanted : {0U, 1U, 7U, 50U}) {
        const Found found = circuits_of(graph, wanted);
        EXPECT_EQ(found.circuits, std::vector<Bones>(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(wanted)));
        EXPECT_EQ(found.count, all.size());
    }
}

// ---- Properties between bones

/// With bones first and properties after them every vertex counts for being elementary, and bones alone for the length.
TEST(Circuits, PassPropertiesOnceToo) {
    testing::Random random(23);
    for (unsigned i = 0; i < 300; ++i) {
        const unsigned size = 4 + random.below(4), bones = 1 + random.below(size - 1);
        Digraph graph(size);
        for (unsigned a = 0; a < 2 * size; ++a) graph.arc[random.below(size)][random.below(size)] = 1;
        std::vector<testing::HandEdge> edges;
        for (const auto& [from, to] : graph.arcs()) edges.push_back({from, to, false});
        const Dependencies dependencies = testing::dependencies_of(size, bones, edges);
        const Rig rig = testing::plain_rig(bones, size - bones);
        std::vector<std::size_t> lengths, expected;
        const Found found = circuits_of(rig, dependencies, 1'000'000);
        for (const Bones& circuit : found.circuits) lengths.push_back(circuit.size());
        for (const Bones& circuit : NaiveCircuits{graph}.run()) {
            const auto on_bones = static_cast<std::size_t>(
                std::count_if(circuit.begin(), circuit.end(), [&](std::uint32_t v) { return v < bones; }));
            expected.push_back(on_bones == 0 ? circuit.size() : on_bones);
        }
        std::sort(lengths.begin(), lengths.end());
        std::sort(expected.begin(), expected.end());
        ASSERT_EQ(lengths, expected) << "graph " << i;
        ASSERT_EQ(found.count, expected.size());
    }
}

// ---- Makers

TEST(Circuits, OfDifferentMakersDiffer) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'constraints': [{'name': 'x', 'kind': 'position', 'from': 'b'}, {'name': 'y', 'kind': 'rotation', "
        "'from': 'b'}]}, {'name': 'b', 'parent': 'a'}");
    EXPECT_EQ(circuits_of(rig, build_dependencies(rig), 10).count, 2U);
}

TEST(Circuits, OverSeveralEdgesOfOneMakerAreOne) {
    const Rig rig = tiny_rig(
        "{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'transform', 'from': ['beak', {'bone': 'beak', 'at': "
        "0.5}]}]}, "
        "{'name': 'beak', 'parent': 'neck'}");
    EXPECT_EQ(circuits_of(rig, build_dependencies(rig), 10).count, 1U);
}

// ---- Figures

// Elementary circuits of the complete digraph, a count of combinatorics: K_n has the sum over k of C(n,k) (k-1)! circuits; for
// ten 1,112,073, recomputed by independent code before.
TEST(Circuits, OfTheCompleteDigraphAreCounted) {
    const std::vector<std::uint64_t> counts{0, 1, 5, 20, 84, 409, 2365, 16064, 125664, 1112073};
    for (unsigned size = 1; size <= 10; ++size) {
        const Found found = circuits_of(testing::complete(size), 3);
        EXPECT_EQ(found.count, counts[size - 1]) << size;
        EXPECT_TRUE(found.is_all_counted);
    }
}

// Johnson, SIAM J. Computing 4 (1975), figure 1: three circuits for each step of its size.
TEST(Circuits, OfJohnsonsFigureAreThreeTimesItsSize) {
    for (unsigned k = 2; k <= 30; ++k) EXPECT_EQ(circuits_of(testing::johnsons_figure(k), 0).count, 3 * k) << k;
}

std::string lengths_of(const Found& found) {
    std::string text;
    for (const Bones& circuit : found.circuits) text += (text.empty() ? "" : " ") + std::to_string(circuit.size());
    return text;
}

// Lengauer and Tarjan, ACM TOPLAS 1 (1979), whose figure it is; nine circuits, the shortest through the root of length 5,
// recomputed by independent code before.
TEST(Circuits, OfTheFlowGraphOfLengauerAndTarjan) {
    const Found found = circuits_of(testing::lengauer_tarjan());
    EXPECT_EQ(lengths_of(found), "2 2 5 5 5 6 6 6 7");
    const auto root = std::find_if(found.circuits.begin(), found.circuits.end(), [](const Bones& circuit) {
        return std::find(circuit.begin(), circuit.end(), 12U) != circuit.end();
    });
    ASSERT_NE(root, found.circuits.end());
    EXPECT_EQ(root->size(), 5U);
}

// Sedgewick and Wayne, Algorithms, 4th edition, tinyDG (arcs from memory); eight circuits, recomputed by independent code before.
TEST(Circuits, OfTinyDgAreEight) { EXPECT_EQ(circuits_of(testing::tiny_dg()).count, 8U); }

// Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms, strongly connected components (arcs from memory); four
// circuits with the loop, recomputed by independent code before.
TEST(Circuits, OfTheComponentsOfClrsAreFourWithTheLoop) {
    EXPECT_EQ(circuits_of(testing::clrs_components()).circuits, (std::vector<Bones>{{0, 1, 4}, {2, 3}, {5, 6}, {7}}));
}

// ---- Size

TEST(Circuits, OfACycleOfAHundredThousandBonesIsOne) {
    const unsigned size = 100'000;
    for (const bool backwards : {false, true}) {
        std::vector<testing::HandEdge> edges;
        Dependencies dependencies = testing::dependencies_of(0, 0, edges);
        Rig rig = testing::plain_rig(size, 0);
        for (unsigned b = 0; b < size; ++b) {
            Constraint& constraint = rig.bones[b].constraints.emplace_back();
            constraint.name = "c";
            constraint.sources.emplace_back().bone = backwards ? (b + 1) % size : (b + size - 1) % size;
        }
        dependencies = build_dependencies(rig);
        const Found found = circuits_of(rig, dependencies, 5);
        EXPECT_EQ(found.count, 1U);
        EXPECT_TRUE(found.is_all_counted);
        ASSERT_EQ(found.circuits.size(), 1U);
        EXPECT_EQ(found.circuits[0].size(), size);
    }
}

// Each bone reads three others: short circuits are few, and the way back from anywhere branches to everywhere.
TEST(Circuits, OfALargeBlobAreListed) {
    const unsigned size = 20'000;
    testing::Random random(24);
    Rig rig = testing::plain_rig(size, 0);
    for (Bone& bone : rig.bones)
        for (int i = 0; i < 3; ++i) {
            Constraint& constraint = bone.constraints.emplace_back();
            constraint.name = "c" + std::to_string(i);
            constraint.sources.emplace_back().bone = random.below(size);
        }
    const Found found = circuits_of(rig, build_dependencies(rig), 3);
    ASSERT_EQ(found.circuits.size(), 3U);
    EXPECT_LE(found.circuits[2].size(), 3U);
    EXPECT_FALSE(found.is_all_counted);
}

TEST(Circuits, OfADenseBlobAreListedAndCountedUpToABound) {
    const Found found = circuits_of(testing::complete(150), 300);
    EXPECT_FALSE(found.is_all_counted);
    EXPECT_GE(found.count, 100'000U);
    ASSERT_EQ(found.circuits.size(), 300U);
    EXPECT_EQ(found.circuits.back(), (Bones{2, 5}));  // 149 + 148 pairs with the first two bones, then 2-3, 2-4, 2-5
}

}  // namespace
}  // namespace ligament
