// Are cycles found once each, at the finest grain, with a shortest witness?
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include "digraph_rig.hpp"
#include "ligament/facts.hpp"
#include "naive_graph.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::Digraph;
using testing::tiny_rig;

// ---- Dumps

std::string end_name(const Rig& rig, const Cycle& cycle, std::uint32_t end) {
    return cycle.is_between_properties() ? "property " + rig.properties[end].name : rig.bones[end].name;
}

/// "a b: channel; a -constraint b/c-> b ...; cores a b | c"
std::string dump_cycles(const Rig& rig) {
    const Dependencies dependencies = build_dependencies(rig);
    std::string text;
    for (const Cycle& cycle : find_cycles(rig, dependencies)) {
        if (!text.empty()) text += "\n";
        for (BoneId b : cycle.bones) text += rig.bones[b].name + " ";
        for (PropertyId p : cycle.properties) text += "(" + rig.properties[p].name + ") ";
        text += "at " + std::string(name_of(cycle.grain)) + ":";
        for (const FoldedEdge& edge : cycle.witness) {
            text += " " + end_name(rig, cycle, edge.from) + " -" + std::string(name_of(edge.kind)) + " " +
                    name_of(rig, dependencies, edge.maker);
            for (MakerId maker : edge.through) text += " + " + name_of(rig, dependencies, maker);
            text += "->";
        }
        text += " " + end_name(rig, cycle, cycle.witness.back().to) + ";";
        for (const std::vector<BoneId>& core : cycle.cores) {
            text += " core";
            for (BoneId b : core) text += " " + rig.bones[b].name;
        }
    }
    return text.empty() ? "none" : text;
}

// ---- All small digraphs as rigs

/// What a cycle of transform constraints has to be for a digraph: one entry a component with a cycle, in file order.
void expect_cycles_of(const Digraph& graph) {
    const Rig rig = testing::rig_of(graph);
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
    const std::vector<unsigned> component = testing::naive_components(graph);
    std::map<unsigned, std::vector<BoneId>> expected;
    std::map<unsigned, unsigned> shortest;
    for (unsigned v = 0; v < graph.size(); ++v) {
        const unsigned length = testing::naive_shortest_cycle(graph, v);
        if (length == 0) continue;
        expected[component[v]].push_back(v);
        unsigned& best = shortest[component[v]];
        best = best == 0 ? length : std::min(best, length);
    }
    ASSERT_EQ(cycles.size(), expected.size());
    auto next = expected.begin();
    for (const Cycle& cycle : cycles) {
        ASSERT_EQ(cycle.bones, next->second);
        ASSERT_EQ(cycle.grain, Grain::channel);
        ASSERT_TRUE(cycle.witness_is_shortest);
        ASSERT_EQ(cycle.witness.size(), shortest[next->first]);
        for (const std::vector<BoneId>& core : cycle.cores) ASSERT_EQ(core, cycle.bones);
        BoneId first = none;
        for (std::size_t i = 0; i < cycle.witness.size(); ++i) {
            const FoldedEdge& edge = cycle.witness[i];
            ASSERT_TRUE(graph.arc[edge.from][edge.to]);
            ASSERT_EQ(name_of(rig, dependencies, edge.maker),
                      "b" + std::to_string(edge.to) + "/from_" + std::to_string(edge.from));
            ASSERT_EQ(edge.to, cycle.witness[(i + 1) % cycle.witness.size()].from);
            first = std::min(first, edge.from);
        }
        ASSERT_EQ(cycle.witness.front().from, first);
        ++next;
    }
}

TEST(Cycles, AreThoseOfTheReachabilityMatrixForAllDigraphsOfUpToFourBones) {
    for (unsigned size = 1; size <= 4; ++size)
        for (std::uint64_t number = 0; number < testing::count_digraphs(size, size < 4); ++number) {
            expect_cycles_of(testing::nth_digraph(size, size < 4, number));
            if (HasFatalFailure()) FAIL() << "digraph " << number << " of size " << size;
        }
}

// ---- Bones and properties mixed, by hand

/// The arcs between bones alone, straight or through properties.
Digraph fold_properties(const Digraph& graph, unsigned bones) {
    Digraph inner = graph;
    for (const auto& [u, v] : graph.arcs()) inner.arc[u][v] = u >= bones && v >= bones;
    const std::vector<std::vector<char>> reach = testing::naive_reach(inner);
    Digraph folded(bones);
    for (unsigned u = 0; u < bones; ++u)
        for (unsigned v = 0; v < bones; ++v) {
            folded.arc[u][v] = graph.arc[u][v];
            for (unsigned p = bones; p < graph.size(); ++p)
                for (unsigned q = bones; q < graph.size(); ++q)
                    if (graph.arc[u][p] && (p == q || reach[p][q]) && graph.arc[q][v]) folded.arc[u][v] = true;
        }
    return folded;
}

void expect_witnesses_of(const Digraph& graph, unsigned bones) {
    std::vector<testing::HandEdge> edges;
    for (const auto& [from, to] : graph.arcs()) edges.push_back({from, to, false});
    const Dependencies dependencies = testing::dependencies_of(graph.size(), bones, edges);
    const Rig rig = testing::plain_rig(bones, graph.size() - bones);
    const Digraph folded = fold_properties(graph, bones);
    for (const Cycle& cycle : find_cycles(rig, dependencies)) {
        unsigned shortest = 0;
        for (BoneId b : cycle.bones) {
            const unsigned length = testing::naive_shortest_cycle(folded, b);
            if (length != 0) shortest = shortest == 0 ? length : std::min(shortest, length);
        }
        if (cycle.bones.empty()) {
            Digraph properties(graph.size());
            for (const auto& [u, v] : graph.arcs()) properties.arc[u][v] = u >= bones && v >= bones;
            for (PropertyId p : cycle.properties) {
                const unsigned length = testing::naive_shortest_cycle(properties, bones + p);
                if (length != 0) shortest = shortest == 0 ? length : std::min(shortest, length);
            }
        }
        ASSERT_EQ(cycle.witness.size(), shortest);
        for (std::size_t i = 0; i < cycle.witness.size(); ++i) {
            const FoldedEdge& edge = cycle.witness[i];
            ASSERT_EQ(edge.to, cycle.witness[(i + 1) % cycle.witness.size()].from);
            ASSERT_TRUE(cycle.bones.empty() || folded.arc[edge.from][edge.to]);
            // The makers, which are numbered as the edges, lead from `from` to `to`.
            const std::uint32_t offset = cycle.bones.empty() ? bones : 0;
            ASSERT_EQ(edges[edge.maker].from, edge.from + offset);
            ASSERT_EQ(edges[edge.through.empty() ? edge.maker : edge.through.back()].to, edge.to + offset);
            MakerId before = edge.maker;
            for (MakerId maker : edge.through) {
                ASSERT_EQ(edges[before].to, edges[maker].from);
                before = maker;
            }
        }
    }
}

TEST(Cycles, FoldWhatLiesBetweenBonesForAllDigraphsOfFourVertices) {
    for (unsigned bones = 0; bones <= 4; ++bones)
        for (std::uint64_t number = 0; number < testing::count_digraphs(4, false); ++number) {
            expect_witnesses_of(testing::nth_digraph(4, false, number), bones);
            if (HasFatalFailure()) FAIL() << "digraph " << number << " with " << bones << " bones";
        }
}

TEST(Cycles, FoldWhatLiesBetweenBonesInLargerRandomDigraphs) {
    testing::Random random(20);
    for (unsigned round = 0; round < 2000; ++round) {
        const unsigned size = 5 + random.below(8);
        Digraph graph(size);
        for (unsigned arcs = random.below(2 * size); arcs > 0; --arcs) graph.arc[random.below(size)][random.below(size)] = true;
        expect_witnesses_of(graph, random.below(size + 1));
        if (HasFatalFailure()) FAIL() << "round " << round;
    }
}

// ---- Grains

TEST(Cycles, OfPositionReadInPositionIsLeftAtChannelGrain) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'position', 'from': 'b'}]},
                                      {'name': 'b', 'constraints': [{'name': 'd', 'kind': 'position', 'from': 'a'}]})")),
              "a b at channel: a -constraint b/d-> b -constraint a/c-> a; core a b");
}

TEST(Cycles, ThroughDifferentChannelsIsOneAtStepGrainOnly) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'rotation', 'from': 'b'}]},
                                      {'name': 'b', 'constraints': [{'name': 'd', 'kind': 'position', 'from': 'a'}]})")),
              "a b at step: a -constraint b/d-> b -constraint a/c-> a; core a b");
}

TEST(Cycles, ThroughDifferentStepsIsOneAtBoneGrainOnly) {
    // a's driver reads b's pose, and b's constraint reads a's final.
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'channels': {'rotation.x': {'expression': 'x', 'inputs':
                                           {'x': {'bone': 'b', 'channel': 'rotation.x'}}}}},
                                      {'name': 'b', 'constraints': [{'name': 'd', 'kind': 'rotation', 'from': 'a'}]})")),
              "a b at bone: a -constraint b/d-> b -driver a/rotation.x-> a; core a b");
}

TEST(Cycles, OfABoneThatReadsItselfIsOneOfOne) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'rotation', 'from': 'a'}]})")),
              "a at channel: a -constraint a/c-> a; core a");
}

TEST(Cycles, DoNotCountDisabledConstraints) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'rotation', 'from': 'b'}]},
                                      {'name': 'b', 'constraints': [{'name': 'd', 'kind': 'rotation', 'from': 'a',
                                       'enabled': false}]})")),
              "none");
}

TEST(Cycles, OfAChildThatItsParentReads) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'aim', 'from': 'b'}]},
                                      {'name': 'b', 'parent': 'a'})")),
              "a b at channel: a -parent b-> b -constraint a/c-> a; core a b");
}

TEST(Cycles, OfASolverWhosePoleHangsUnderItsChain) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'upper'}, {'name': 'lower', 'parent': 'upper', 'constraints': [{'name': 'reach',
                                       'kind': 'ik', 'chain': 2, 'target': 'hand', 'pole': 'pole'}]},
                                      {'name': 'hand'}, {'name': 'pole', 'parent': 'lower'})")),
              "upper lower pole at channel: lower -parent pole-> pole -solver lower/reach-> lower; core upper lower pole");
}

TEST(Cycles, ThroughAnObjectNameTheObjectFirst) {
    EXPECT_EQ(
        dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'surface', 'from': {'object': 'skin'}}]})",
                             "'objects': [{'name': 'skin', 'follows': ['a']}]")),
        "a at channel: a -parent skin + a/c-> a; core a");
}

TEST(Cycles, ThroughADrivenPropertyFoldItsDriverIn) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'channels': {'rotation.x': {'expression': 'p', 'inputs':
                                           {'p': {'property': 'bend'}}}}})",
                                   R"('properties': [{'name': 'bend', 'value': {'expression': 'x', 'inputs':
                                           {'x': {'bone': 'a', 'channel': 'rotation.x', 'space': 'final'}}}}])")),
              "a (bend) at channel: a -driver bend + a/rotation.x-> a; core a");
}

TEST(Cycles, OfPropertiesAloneHaveNoBonesAndComeFirst) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'rotation', 'from': 'a'}]})",
                                   R"('properties': [{'name': 'free'},
                                      {'name': 'p', 'value': {'expression': 'q', 'inputs': {'q': {'property': 'q'}}}},
                                      {'name': 'q', 'value': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}])")),
              "(p) (q) at channel: property p -driver q-> property q -driver p-> property p;\n"
              "a at channel: a -constraint a/c-> a; core a");
}

// At bone grain the bone is in it, at channel grain the property's own loop is all that is left.
TEST(Cycles, WhoseOnlyFineLoopIsOfPropertiesTellThatLoop) {
    EXPECT_EQ(
        dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'rotation', 'from': 'b', 'weight':
                                           {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}]}, {'name': 'b'})",
                             R"('properties': [{'name': 'p', 'value': {'expression': 'p + x', 'inputs': {'p': {'property': 'p'},
                                           'x': {'bone': 'a', 'channel': 'rotation.x'}}}}])")),
        "a (p) at channel: property p -driver p-> property p;");
}

// From the pose there is a long way, out through the solver, and a short one that stays inside the bone.
TEST(Cycles, MayGoOnInsideTheBoneThatTheirFirstEdgeLeaves) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'channels': {'rotation.y': {'expression': 'x', 'inputs':
                                           {'x': {'bone': 'a', 'channel': 'position.x', 'space': 'final'}}}},
                                       'constraints': [{'name': 's', 'kind': 'ik', 'chain': 1, 'target': 'b'},
                                                       {'name': 't', 'kind': 'space', 'from': 'b'}]}, {'name': 'b'})")),
              "a at channel: a -driver a/rotation.y-> a; core a");
}

// The driver leads over upper's pose into the solver, so that upper is on the way, though as a whole it feeds nothing.
TEST(Cycles, MayPassThePoseOfAChainBoneThatIsNotInTheComponent) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'upper', 'channels': {'rotation.x': {'expression': 'x', 'inputs':
                                           {'x': {'bone': 'lower', 'channel': 'rotation.x', 'space': 'final'}}}}},
                                      {'name': 'lower', 'parent': 'upper', 'from_parent': [], 'constraints':
                                           [{'name': 's', 'kind': 'ik', 'chain': 2, 'target': 'goal'}]}, {'name': 'goal'})")),
              "lower at channel: upper -solver lower/s-> lower -driver upper/rotation.x-> upper; core lower");
}

// The loop of the property alone has one edge and that of the bones two; a witness between bones is what a rigger can follow.
TEST(Cycles, WithLoopsOfBonesAndOfPropertiesTellOneOfBones) {
    EXPECT_EQ(
        dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'name': 'c', 'kind': 'rotation', 'from': 'b', 'weight':
                                           {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}]},
                                      {'name': 'b', 'constraints': [{'name': 'd', 'kind': 'rotation', 'from': 'a'}]})",
                             R"('properties': [{'name': 'p', 'value': {'expression': 'p + x', 'inputs': {'p': {'property': 'p'},
                                           'x': {'bone': 'a', 'channel': 'rotation.x'}}}}])")),
        "a b (p) at channel: a -constraint b/d-> b -constraint a/c-> a; core a b");
}

// As ThroughDifferentStepsIsOneAtBoneGrainOnly, with a disabled constraint that would close the loop at channel grain.
TEST(Cycles, DoNotGetFinerByInertEdges) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'a', 'constraints': [{'kind': 'rotation', 'from': 'b', 'enabled': false}],
                                       'channels': {'rotation.x': {'expression': 'x', 'inputs':
                                           {'x': {'bone': 'b', 'channel': 'rotation.x'}}}}},
                                      {'name': 'b', 'constraints': [{'name': 'd', 'kind': 'rotation', 'from': 'a'}]})")),
              "a b at bone: a -constraint b/d-> b -driver a/rotation.x-> a; core a b");
}

// The component holds two true loops and a bone that only bone grain ties in.
TEST(Cycles, ListACoreForEachTrueLoop) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"(
                {'name': 'a', 'constraints': [{'name': 'c', 'kind': 'position', 'from': 'b'}]},
                {'name': 'b', 'constraints': [{'name': 'c', 'kind': 'position', 'from': ['a', 'e']}]},
                {'name': 'e', 'channels': {'scale.x': {'expression': 'x', 'inputs': {'x': {'bone': 'f', 'channel': 'scale.x'}}}}},
                {'name': 'f', 'constraints': [{'name': 'c', 'kind': 'rotation', 'from': ['g', 'b']}]},
                {'name': 'g', 'constraints': [{'name': 'c', 'kind': 'rotation', 'from': 'f'}]})")),
              "a b e f g at channel: a -constraint b/c-> b -constraint a/c-> a; core a b core f g");
}

TEST(Cycles, StandInTheOrderOfTheirFirstBone) {
    EXPECT_EQ(dump_cycles(tiny_rig(R"({'name': 'd', 'constraints': [{'name': 'c', 'kind': 'scale', 'from': ['d', 'b']}]},
                                      {'name': 'b', 'constraints': [{'name': 'c', 'kind': 'scale', 'from': 'b'}]})")),
              "d at channel: d -constraint d/c-> d; core d\nb at channel: b -constraint b/c-> b; core b");
}

}  // namespace
}  // namespace ligament
