// The motion graph and what is wired late: both against the whole channel and step grains, on random rigs of every sort.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <thread>

#include "ligament/graph.hpp"
#include "mixed_rig.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

/// The vertices that are reached from `starts` over edges that are not inert. Naive: again and again over all edges.
std::vector<bool> reached_from(const Dependencies& dependencies, const Graph& graph, const std::vector<VertexId>& starts) {
    std::vector<bool> is_reached(graph.vertices.size(), false);
    for (VertexId v : starts) is_reached[v] = true;
    for (bool grows = true; grows;) {
        grows = false;
        for (VertexId v = 0; v < graph.vertices.size(); ++v)
            for (const Edge& edge : graph.needs(v))
                if (!is_reached[v] && is_reached[edge.from] && !dependencies.is_inert(edge)) is_reached[v] = grows = true;
    }
    return is_reached;
}

std::vector<VertexId> pose_of(const Graph& graph, BoneId bone) {
    std::vector<VertexId> vertices;
    for (VertexId i = 0; i < pose_count(graph, bone); ++i) vertices.push_back(graph.first_of_bone[bone] + i);
    return vertices;
}

/// By bone a letter for each part of its final, and for its curve, that is reached; then one for each property, driver, object
/// and solver.
std::string arrivals(const Rig& rig, const Graph& graph, const std::vector<bool>& is_reached) {
    std::string text;
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        const VertexId end = graph.first_of_bone[b + 1];
        for (VertexId v = end - (rig.bones[b].curve ? 4 : 3); v < end; ++v) text += is_reached[v] ? 'x' : '.';
        text += ' ';
    }
    for (VertexId v = graph.first_property; v < graph.vertices.size(); ++v) text += is_reached[v] ? 'x' : '.';
    return text;
}

/// Every edge between vertices of marked bones, or of no bone, in the order of the graph.
std::vector<std::string> edges_among(const Rig& rig, const Dependencies& dependencies, const Graph& graph,
                                     const std::vector<std::uint8_t>& marked) {
    const auto counts = [&](VertexId v) {
        const BoneId bone = dependencies.bone_of(graph, v);
        return bone == none || marked[bone];
    };
    std::vector<std::string> edges;
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        for (const Edge& edge : graph.needs(v))
            if (counts(v) && counts(edge.from))
                edges.push_back(name_of(rig, dependencies, graph, edge.from) + " -> " + name_of(rig, dependencies, graph, v) +
                                " " + std::to_string(edge.gate) + " " + std::to_string(edge.maker) + " " +
                                std::string(name_of(edge.kind())));
    return edges;
}

}  // namespace

TEST(MotionGraph, is_reached_as_the_channel_grain_is) {
    Random random(17);
    for (unsigned round = 0; round < 300; ++round) {
        const Rig rig = mixed_rig(random, {.bones = 2 + random.below(8), .backwards = round % 3 * 15u});
        const Dependencies dependencies = build_dependencies(rig);
        const Graph &motion = dependencies.motion, &channel = dependencies.at(rig, Grain::channel);
        for (BoneId b = 0; b < rig.bones.size(); ++b)
            ASSERT_EQ(arrivals(rig, motion, reached_from(dependencies, motion, pose_of(motion, b))),
                      arrivals(rig, channel, reached_from(dependencies, channel, pose_of(channel, b))))
                << "round " << round << ", from bone " << b;
        for (std::size_t i = 0; i < rig.properties.size() + rig.drivers.size() + rig.objects.size(); ++i) {
            const auto other = static_cast<VertexId>(i);
            ASSERT_EQ(arrivals(rig, motion, reached_from(dependencies, motion, {motion.first_property + other})),
                      arrivals(rig, channel, reached_from(dependencies, channel, {channel.first_property + other})))
                << "round " << round << ", from " << i;
        }
    }
}

TEST(MotionGraph, has_four_vertices_and_eight_edges_for_a_plain_bone) {
    const Rig rig = tiny_rig("{'name':'a'},{'name':'b','parent':'a'}");
    const Dependencies dependencies = build_dependencies(rig);
    EXPECT_EQ(dependencies.motion.vertices.size(), 8u);
    EXPECT_EQ(dependencies.motion.edges.size(), 3u + 8u);
    EXPECT_EQ(name_of(rig, dependencies, dependencies.motion, 0), "a local");
    EXPECT_EQ(name_of(rig, dependencies, dependencies.motion, 1), "a final position");
}

TEST(MotionGraph, keeps_the_steps_that_something_comes_between) {
    const Rig rig = tiny_rig(
        "{'name':'t'},{'name':'a','constraints':[{'name':'l','kind':'rotation','space':'local','from':'t'},"
        "{'name':'f','kind':'aim','from':'t'}],'channels':{'scale.x':{'expression':'w','inputs':{'w':{'property':'p'}}}}}",
        "'properties':[{'name':'p'}]");
    const Dependencies dependencies = build_dependencies(rig);
    const Graph& motion = dependencies.motion;
    std::vector<std::string> kinds;
    for (VertexId v = motion.first_of_bone[1]; v < motion.first_of_bone[2]; ++v)
        if (motion.vertices[v].channel == 0) kinds.emplace_back(name_of(motion.vertices[v].kind));
    EXPECT_EQ(kinds, (std::vector<std::string>{"pose", "solved", "constraint", "local", "base", "constraint"}));
}

TEST(MotionGraph, keeps_the_loop_of_a_constraint_that_reads_its_own_final) {
    const Rig rig = tiny_rig("{'name':'a','constraints':[{'name':'c','kind':'position','from':'a'}]}");
    const Graph motion = build_dependencies(rig).motion;
    const VertexId position = motion.first_of_bone[1] - 3;  // the constraint's step and the final
    const auto needs = motion.needs(position);
    EXPECT_EQ(std::count_if(needs.begin(), needs.end(), [&](const Edge& edge) { return edge.from == position; }), 1);
}

TEST(MotionGraph, lists_apart_what_hands_on_no_part) {
    Rig rig = tiny_rig(
        "{'name':'s'},{'name':'a','constraints':[{'name':'c','kind':'custom','from':'s','reads':['position'],"
        "'writes':['position']}]}");
    EXPECT_TRUE(build_dependencies(rig).step_only.empty());
    rig.bones[1].constraints[0].reads = 0;
    const Dependencies dependencies = build_dependencies(rig);
    ASSERT_EQ(dependencies.step_only.size(), 1u);
    const EdgeInto& into = dependencies.step_only[0];
    EXPECT_EQ(name_of(rig, dependencies, dependencies.motion, into.edge.from), "s final position");
    EXPECT_EQ(name_of(rig, dependencies, dependencies.motion, into.to), "a/c position");
}

TEST(LateGraph, is_as_large_as_was_counted) {
    Random random(18);
    for (unsigned round = 0; round < 200; ++round) {
        const Rig rig = mixed_rig(random, {.bones = 1 + random.below(8), .backwards = 20});
        const Dependencies dependencies = build_dependencies(rig);
        for (Grain grain : {Grain::bone, Grain::step, Grain::channel}) {
            const Graph& graph = dependencies.at(rig, grain);
            ASSERT_EQ(graph.vertices.size(), dependencies.size_at(grain).vertices) << "round " << round;
            ASSERT_EQ(graph.edges.size(), dependencies.size_at(grain).edges) << "round " << round;
        }
    }
}

TEST(LateGraph, has_parts_with_what_stands_between_the_marked_bones) {
    Random random(19);
    for (unsigned round = 0; round < 200; ++round) {
        const Rig rig = mixed_rig(random, {.bones = 2 + random.below(8), .backwards = 20});
        const Dependencies dependencies = build_dependencies(rig);
        std::vector<std::uint8_t> marked(rig.bones.size());
        for (std::uint8_t& mark : marked) mark = random.below(2) != 0;
        for (const LateGraph* late : {&dependencies.step, &dependencies.channel})
            ASSERT_EQ(edges_among(rig, dependencies, late->part(rig, dependencies, marked), marked),
                      edges_among(rig, dependencies, late->whole(rig, dependencies), marked))
                << "round " << round;
    }
}

TEST(LateGraph, is_wired_once_however_many_threads_and_copies_ask) {
    const Rig rig = tiny_rig("{'name':'a'},{'name':'b','parent':'a'}");
    const Dependencies dependencies = build_dependencies(rig), copy = dependencies;
    std::vector<const Graph*> got(8);
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < got.size(); ++i)
        threads.emplace_back([&, i] { got[i] = &(i % 2 == 0 ? dependencies : copy).at(rig, Grain::channel); });
    for (std::thread& thread : threads) thread.join();
    EXPECT_EQ(std::count(got.begin(), got.end(), got[0]), 8);
    EXPECT_EQ(got[0]->edges.size(), dependencies.size_at(Grain::channel).edges);
}

TEST(LateGraph, goes_without_the_makers_that_are_taken_out) {
    const Rig rig = tiny_rig("{'name':'s'},{'name':'a','constraints':[{'name':'c','kind':'position','from':'s'}]}");
    const Dependencies dependencies = build_dependencies(rig);
    const MakerId maker = maker_of(dependencies, 0);
    const Dependencies left = dependencies_without(dependencies, std::span(&maker, 1));
    for (Grain grain : {Grain::step, Grain::channel})
        for (const Edge& edge : left.at(rig, grain).edges)
            EXPECT_EQ(left.is_inert(edge), edge.maker == maker) << name_of(rig, left, edge.maker);
    EXPECT_FALSE(dependencies.is_inert(dependencies.at(rig, Grain::channel).edges.back()));
}

}  // namespace ligament::testing
