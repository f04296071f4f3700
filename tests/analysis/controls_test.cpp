// Whom does each control move, and who moves only through it?
#include "ligament/controls.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "ligament/facts.hpp"
#include "mixed_rig.hpp"
#include "motion.hpp"
#include "naive_graph.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

std::string names_of(const Rig& rig, const std::vector<BoneId>& bones) {
    std::string text;
    for (BoneId b : bones) text += (text.empty() ? "" : " ") + rig.bones[b].name;
    return text;
}

ControlFacts facts_of(const Rig& rig) { return find_control_facts(rig, build_dependencies(rig), default_state(rig)); }

/// "skin: arm; tail: -": the single points of each deform bone, "unmoved" where no control reaches it.
std::string points_of(const Rig& rig) {
    std::string text;
    for (const ControlPoints& points : facts_of(rig).deform) {
        const std::string names = names_of(rig, points.single_points);
        text += (text.empty() ? "" : "; ") + rig.bones[points.bone].name + ": " +
                (!points.is_moved ? "unmoved"
                 : names.empty()  ? "-"
                                  : names);
    }
    return text;
}

/// "root 2/0/0": moves, only through it, no other control moves.
std::string reach_of(const Rig& rig) {
    std::string text;
    for (const ControlReach& reach : facts_of(rig).controls)
        text += (text.empty() ? "" : "; ") + rig.bones[reach.control].name + " " + std::to_string(reach.moves) + "/" +
                std::to_string(reach.only_through) + "/" + std::to_string(reach.alone);
    return text;
}

TEST(ControlPoints, AreTheControlsThatEveryPathPassesThrough) {
    const Rig rig = tiny_rig(R"({'name': 'root', 'roles': ['control']}, {'name': 'arm', 'roles': ['control'], 'parent': 'root'},
        {'name': 'hand', 'roles': ['control'], 'parent': 'root'}, {'name': 'mech', 'parent': 'arm'},
        {'name': 'skin', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': 'mech'}]},
        {'name': 'both', 'roles': ['deform'], 'constraints': [{'kind': 'rotation', 'from': 'mech'}, {'kind': 'position', 'from': 'hand'}]},
        {'name': 'still', 'roles': ['deform']},
        {'name': 'base', 'roles': ['deform'], 'parent': 'root'})");
    EXPECT_EQ(points_of(rig), "skin: arm; both: -; still: unmoved; base: root");
    EXPECT_EQ(reach_of(rig), "root 3/1/1; arm 2/1/0; hand 1/0/0");
}

TEST(ControlPoints, TakeThePropertiesOnAControlOutToo) {
    const char* rest =
        "'properties': [{'name': 'bend', 'on': 'arm'}, {'name': 'twist', 'on': 'arm', 'value': {'expression': 'b', "
        "'inputs': {'b': {'property': 'bend'}}}}]";
    const std::string skin = R"({'name': 'skin', 'roles': ['deform'], 'channels': {'rotation.x': {'expression': 't', 'inputs':
        {'t': {'property': 'twist'}}}}})";
    EXPECT_EQ(points_of(tiny_rig("{'name': 'arm', 'roles': ['control']}, " + skin, rest)), "skin: arm");
    EXPECT_EQ(points_of(tiny_rig("{'name': 'arm'}, " + skin, rest)), "skin: unmoved");
}

TEST(ControlPoints, OfADeformBoneThatIsAControlHoldItself) {
    EXPECT_EQ(points_of(tiny_rig(
                  "{'name': 'root', 'roles': ['control']}, {'name': 'jaw', 'roles': ['control', 'deform'], 'parent': 'root'}")),
              "jaw: jaw");
}

// The motion of b is thrown away for that of a: taking either out stops the skin.
TEST(ControlPoints, MayBeSeveralWhereAControlFollowsAnotherOneWholly) {
    const Rig rig = tiny_rig(R"({'name': 'a', 'roles': ['control']},
        {'name': 'b', 'roles': ['control'], 'constraints': [{'kind': 'transform', 'from': 'a'}]},
        {'name': 'skin', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': 'b'}]})");
    EXPECT_EQ(points_of(rig), "skin: a b");
    EXPECT_EQ(reach_of(rig), "a 1/1/1; b 0/1/0");
}

TEST(ControlPoints, ChangeWithTheState) {
    const Rig rig = tiny_rig(R"({'name': 'ik', 'roles': ['control']}, {'name': 'fk', 'roles': ['control']},
        {'name': 'skin', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': 'ik'},
            {'kind': 'transform', 'from': 'fk', 'weight': {'expression': 'm', 'inputs': {'m': {'property': 'm'}}}}]})",
                             "'properties': [{'name': 'm'}]");
    const Dependencies dependencies = build_dependencies(rig);
    const auto points_at = [&](double mode) {
        return names_of(rig, find_control_facts(rig, dependencies, State{{mode}}).deform.front().single_points);
    };
    EXPECT_EQ(points_at(0), "ik");
    EXPECT_EQ(points_at(0.5), "");
    EXPECT_EQ(points_at(1), "fk");
}

TEST(ControlPoints, OfNoControlsAreNone) {
    EXPECT_EQ(points_of(tiny_rig("{'name': 'skin', 'roles': ['deform']}")), "skin: unmoved");
    EXPECT_TRUE(facts_of(Rig{}).deform.empty());
}

/// A rig in which motion starts at the first vertex alone and travels along the arcs: each bone is a control whose own motion is
/// thrown away for that of all bones from which arcs come. The first one keeps half of it.
Rig flowgraph_rig(const std::string& letters, const std::string& arcs) {
    std::string bones;
    for (char to : letters) {
        std::string sources;
        std::size_t count = 0;
        for (std::size_t i = 0; i + 1 < arcs.size(); i += 3) count += arcs[i + 1] == to;
        for (std::size_t i = 0; i + 1 < arcs.size(); i += 3)
            if (arcs[i + 1] == to)
                sources += (sources.empty() ? "" : ", ") + std::string("{'bone': '") + arcs[i] +
                           "', 'weight': " + std::to_string(1.0 / static_cast<double>(count)) + "}";
        bones += (bones.empty() ? "" : ",") + std::string("{'name': '") + to +
                 "', 'roles': ['control', 'deform'], 'constraints': [{'kind': 'transform', 'from': [" + sources +
                 "], 'weight': " + (to == letters.front() ? "0.5" : "1") + "}]}";
    }
    return tiny_rig(bones);
}

// T. Lengauer and R. E. Tarjan, A fast algorithm for finding dominators in a flowgraph, ACM TOPLAS 1 (1979), figure 1; arcs from
// memory, the dominators recomputed: F and G have C above them, J has G, L has D, all others have R.
TEST(ControlPoints, OfTheFlowgraphOfLengauerAndTarjanAreItsDominators) {
    EXPECT_EQ(points_of(flowgraph_rig("RABCDEFGHIJKL", "RA RB RC AD BA BD BE CF CG DL EH FI GI GJ HE HK IK JI KI KR LH")),
              "R: R; A: R A; B: R B; C: R C; D: R D; E: R E; F: R C F; G: R C G; H: R H; I: R I; J: R C G J; K: R K; L: R D L");
}

// ---- Against taking out the vertices and searching again

/// Whether motion from controls other than those out reaches the bone, with all vertices of `out` taken out; from `only` alone
/// where it is not none.
bool naively_moved(const Rig& rig, const Dependencies& dependencies, const Liveness& liveness, BoneId bone, BoneId out,
                   BoneId only) {
    const Graph& channel = dependencies.at(rig, Grain::channel);
    const auto is_out = [&](VertexId v) {
        if (v >= channel.first_property && v < channel.first_driver) {
            const Property& property = rig.properties[v - channel.first_property];
            return out != none && property.on == out && !property.is_driven();
        }
        return out != none && dependencies.bone_of(channel, v) == out;
    };
    std::vector<char> seen(channel.vertices.size(), 0);
    for (VertexId v = 0; v < channel.vertices.size(); ++v) {
        BoneId starts = none;
        if (channel.vertices[v].kind == VertexKind::pose) starts = channel.vertices[v].element;
        if (channel.vertices[v].kind == VertexKind::property && !rig.properties[channel.vertices[v].element].is_driven())
            starts = rig.properties[channel.vertices[v].element].on;
        seen[v] = starts != none && rig.bones[starts].control && !is_out(v) && (only == none || starts == only);
    }
    for (bool grows = true; grows;) {
        grows = false;
        for (VertexId v = 0; v < channel.vertices.size(); ++v)
            for (const Edge& edge : channel.needs(v))
                if (!seen[v] && seen[edge.from] && !is_out(v) &&
                    carries_motion(dependencies, liveness, channel.vertices[v], edge)) {
                    seen[v] = 1;
                    grows = true;
                }
    }
    const Arrivals arrivals = arrivals_of(rig, channel, bone);
    return std::any_of(seen.begin() + arrivals.first, seen.begin() + arrivals.end, [](char s) { return s != 0; });
}

TEST(ControlPoints, AreThoseFoundByTakingControlsOutOfRandomRigs) {
    testing::Random random(41);
    unsigned points_seen = 0, several = 0, alone_seen = 0;
    for (unsigned round = 0; round < 400; ++round) {
        const Rig rig = testing::mixed_rig(random, {.bones = 3 + random.below(8), .backwards = round % 2 * 10u});
        const Dependencies dependencies = build_dependencies(rig);
        const State state = default_state(rig);
        const Liveness liveness = find_liveness(rig, dependencies, evaluate(rig, dependencies, state));
        const ControlFacts facts = find_control_facts(rig, dependencies, state);
        std::vector<MovedBones> expected(rig.bones.size());
        for (const ControlPoints& points : facts.deform) {
            const bool is_moved = naively_moved(rig, dependencies, liveness, points.bone, none, none);
            ASSERT_EQ(points.is_moved, is_moved) << "round " << round;
            std::vector<BoneId> single, movers;
            for (BoneId c = 0; c < rig.bones.size(); ++c) {
                if (!rig.bones[c].control) continue;
                if (is_moved && !naively_moved(rig, dependencies, liveness, points.bone, c, none)) single.push_back(c);
                if (naively_moved(rig, dependencies, liveness, points.bone, none, c)) movers.push_back(c);
            }
            ASSERT_EQ(points.single_points, single) << "round " << round << " bone " << points.bone;
            ASSERT_EQ(points.only_mover, movers.size() == 1 ? movers.front() : none) << "round " << round;
            for (BoneId c : single) expected[c].only_through.push_back(points.bone);
            for (BoneId c : movers) expected[c].moves.push_back(points.bone);
            if (movers.size() == 1) expected[movers.front()].alone.push_back(points.bone);
            points_seen += !single.empty();
            several += single.size() > 1;
            alone_seen += movers.size() == 1;
        }
        for (const ControlReach& reach : facts.controls) {
            const MovedBones moved = find_moved_bones(rig, dependencies, state, reach.control);
            ASSERT_EQ(moved.moves, expected[reach.control].moves) << "round " << round;
            ASSERT_EQ(moved.only_through, expected[reach.control].only_through) << "round " << round;
            ASSERT_EQ(moved.alone, expected[reach.control].alone) << "round " << round;
            ASSERT_EQ(reach.moves, moved.moves.size());
            ASSERT_EQ(reach.only_through, moved.only_through.size());
            ASSERT_EQ(reach.alone, moved.alone.size());
        }
    }
    EXPECT_GT(points_seen, 100u);
    EXPECT_GT(several, 0u);
    EXPECT_GT(alone_seen, 100u);
}

// More controls than one pass takes.
TEST(ControlPoints, OfManyControlsAreEachOnes) {
    std::string bones = "{'name': 'root', 'roles': ['control']}";
    for (unsigned i = 0; i < 600; ++i) {
        const std::string n = std::to_string(i);
        bones += ", {'name': 'c" + n + "', 'roles': ['control'], 'parent': 'root'}, {'name': 'd" + n +
                 "', 'roles': ['deform'], 'parent': 'c" + n + "'}";
    }
    const Rig rig = tiny_rig(bones);
    const ControlFacts facts = facts_of(rig);
    ASSERT_EQ(facts.deform.size(), 600u);
    for (const ControlPoints& points : facts.deform) ASSERT_EQ(points.single_points, std::vector<BoneId>{points.bone - 1});
    EXPECT_EQ(facts.controls.front().moves, 600u);
    EXPECT_EQ(facts.controls.front().only_through, 0u);
    for (std::size_t i = 1; i < facts.controls.size(); ++i)
        ASSERT_EQ(facts.controls[i].moves + facts.controls[i].only_through, 2u);
}

}  // namespace
}  // namespace ligament
