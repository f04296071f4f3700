// Is the path between two things the one over the fewest bones, and does reach count the bones on the way?
#include <gtest/gtest.h>

#include <string>

#include "digraph_rig.hpp"
#include "ligament/facts.hpp"
#include "naive_graph.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

Endpoint bone(const Rig& rig, const char* name) { return {.bone = find_bone(rig, name)}; }
Endpoint property(const Rig& rig, const char* name) { return {.property = find_property(rig, name)}; }
Endpoint object(const Rig& rig, const char* name) { return {.object = find_object(rig, name)}; }

std::string path(const Rig& rig, Endpoint from, Endpoint to, Grain grain = Grain::bone) {
    const Dependencies dependencies = build_dependencies(rig);
    const Graph& graph = dependencies.at(rig, grain);
    std::string text;
    for (const PathEdge& step : find_path(rig, dependencies, grain, from, to)) {
        EXPECT_EQ(graph.edges[step.edge].from, step.from);
        EXPECT_TRUE(graph.rows[step.to] <= step.edge && step.edge < graph.rows[step.to + 1]);
        if (text.empty()) text = name_of(rig, dependencies, graph, step.from);
        text += " -" + std::string(name_of(graph.edges[step.edge].kind())) + "> " + name_of(rig, dependencies, graph, step.to);
    }
    return text.empty() ? "none" : text;
}

std::string reach(const Rig& rig, Endpoint endpoint, bool forward, Grain grain = Grain::bone) {
    const std::vector<std::uint32_t> steps = find_reach(rig, build_dependencies(rig), grain, endpoint, forward);
    std::string text;
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        if (steps[b] != none) text += (text.empty() ? "" : " ") + rig.bones[b].name + std::to_string(steps[b]);
    return text.empty() ? "none" : text;
}

Rig heron_leg() {
    return tiny_rig(
        R"({'name': 'hip'}, {'name': 'knee', 'parent': 'hip'}, {'name': 'foot', 'parent': 'knee'},
                       {'name': 'skin', 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'foot', 'weight':
                            {'expression': 's', 'inputs': {'s': {'property': 'on'}}}}]},
                       {'name': 'web', 'constraints': [{'name': 'lie', 'kind': 'surface', 'from': {'object': 'cloth'}}]},
                       {'name': 'off', 'constraints': [{'name': 'c', 'kind': 'scale', 'from': 'hip', 'enabled': false}]})",
        R"('properties': [{'name': 'raw'}, {'name': 'on', 'value': {'expression': 'r', 'inputs': {'r': {'property': 'raw'}}}}],
                       'objects': [{'name': 'cloth', 'follows': ['skin']}])");
}

TEST(Paths, LeadFromBoneToBone) {
    const Rig rig = heron_leg();
    EXPECT_EQ(path(rig, bone(rig, "hip"), bone(rig, "skin")), "hip -parent> knee -parent> foot -constraint> skin");
    EXPECT_EQ(path(rig, bone(rig, "skin"), bone(rig, "hip")), "none");
    EXPECT_EQ(path(rig, bone(rig, "hip"), bone(rig, "hip")), "none");
}

TEST(Paths, LeadThroughPropertiesDriversAndObjects) {
    const Rig rig = heron_leg();
    EXPECT_EQ(path(rig, property(rig, "raw"), bone(rig, "web")),
              "property raw -driver> driver of on -driver> property on -driver> driver of skin/seat -driver> skin -parent> "
              "object cloth "
              "-constraint> web");
    EXPECT_EQ(path(rig, property(rig, "raw"), property(rig, "on")), "property raw -driver> driver of on -driver> property on");
    EXPECT_EQ(path(rig, bone(rig, "skin"), object(rig, "cloth")), "skin -parent> object cloth");
    EXPECT_EQ(path(rig, object(rig, "cloth"), bone(rig, "web")), "object cloth -constraint> web");
}

TEST(Paths, DoNotUseInertEdges) {
    const Rig rig = heron_leg();
    EXPECT_EQ(path(rig, bone(rig, "hip"), bone(rig, "off")), "none");
}

TEST(Paths, AtFinerGrainsNameTheSteps) {
    const Rig rig = tiny_rig("{'name': 'a'}, {'name': 'b', 'parent': 'a'}");
    EXPECT_EQ(path(rig, bone(rig, "a"), bone(rig, "b"), Grain::step), "a final -parent> b base");
    EXPECT_EQ(path(rig, bone(rig, "a"), bone(rig, "b"), Grain::channel), "a final position -parent> b base position");
}

TEST(Paths, TakeTheFewestBonesThenTheFileOrder) {
    const Rig rig =
        tiny_rig(R"({'name': 'a'}, {'name': 'x', 'parent': 'a'}, {'name': 'y', 'parent': 'a'}, {'name': 'z', 'parent': 'y'},
                                {'name': 'b', 'constraints': [{'kind': 'scale', 'from': ['z', 'y', 'x']}]})");
    EXPECT_EQ(path(rig, bone(rig, "a"), bone(rig, "b")), "a -parent> x -constraint> b");
}

TEST(Paths, CountBonesBeforeEdges) {
    // Over m there are two bones to leave and two edges, over the property one bone and four edges.
    const Rig rig = tiny_rig(R"({'name': 's'}, {'name': 'm', 'parent': 's'},
                                {'name': 'b', 'parent': 'm', 'channels': {'rotation.x':
                                    {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}})",
                             R"('properties': [{'name': 'p', 'value': {'expression': 'x', 'inputs':
                                    {'x': {'bone': 's', 'channel': 'rotation.x'}}}}])");
    EXPECT_EQ(path(rig, bone(rig, "s"), bone(rig, "b")),
              "s -driver> driver of p -driver> property p -driver> driver of b/rotation.x -driver> b");
}

TEST(Paths, FromABoneToItselfDoNotStayInsideIt) {
    const Rig rig = tiny_rig("{'name': 'a'}, {'name': 'b', 'parent': 'a'}");
    EXPECT_EQ(path(rig, bone(rig, "a"), bone(rig, "a"), Grain::step), "none");
    EXPECT_EQ(path(rig, bone(rig, "a"), bone(rig, "a"), Grain::channel), "none");
}

// The choice is in the middle of the way, and the constraint names the later bone first.
TEST(Paths, TakeTheFirstBoneInFileOrderOnTheWayToo) {
    const Rig rig =
        tiny_rig(R"({'name': 's'}, {'name': 'a', 'parent': 's'}, {'name': 'x', 'parent': 'a'}, {'name': 'y', 'parent': 'a'},
                                {'name': 'b', 'constraints': [{'kind': 'scale', 'from': ['y', 'x']}]})");
    EXPECT_EQ(path(rig, bone(rig, "s"), bone(rig, "b")), "s -parent> a -parent> x -constraint> b");
}

TEST(Paths, FromABoneToItselfAreCycles) {
    const Rig rig = tiny_rig(R"({'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'b'}]}, {'name': 'b', 'parent': 'a'})");
    EXPECT_EQ(path(rig, bone(rig, "a"), bone(rig, "a")), "a -parent> b -constraint> a");
}

TEST(Reach, CountsTheBonesOnTheWay) {
    const Rig rig = heron_leg();
    EXPECT_EQ(reach(rig, bone(rig, "hip"), true), "hip0 knee1 foot2 skin3 web4");
    EXPECT_EQ(reach(rig, bone(rig, "skin"), false), "hip3 knee2 foot1 skin0");
    EXPECT_EQ(reach(rig, bone(rig, "web"), false), "hip4 knee3 foot2 skin1 web0");
    EXPECT_EQ(reach(rig, property(rig, "raw"), true), "skin1 web2");
    EXPECT_EQ(reach(rig, object(rig, "cloth"), false), "hip4 knee3 foot2 skin1");
    EXPECT_EQ(reach(rig, property(rig, "raw"), false), "none");
    EXPECT_EQ(reach(rig, bone(rig, "off"), false), "off0") << "inert";
}

TEST(Reach, IsFinerAtChannelGrain) {
    const Rig rig = tiny_rig(R"({'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'position', 'from': 'a'}]},
                                {'name': 'c', 'constraints': [{'kind': 'rotation', 'from': 'b'}]})");
    EXPECT_EQ(reach(rig, bone(rig, "a"), true), "a0 b1 c2");
    EXPECT_EQ(reach(rig, bone(rig, "a"), true, Grain::channel), "a0 b1");
}

TEST(Reach, IsTheDistanceInAllDigraphsOfUpToThreeBones) {
    for (unsigned size = 1; size <= 3; ++size)
        for (std::uint64_t number = 0; number < testing::count_digraphs(size, true); ++number) {
            const testing::Digraph graph = testing::nth_digraph(size, true, number);
            const Rig rig = testing::rig_of(graph);
            const Dependencies dependencies = build_dependencies(rig);
            for (BoneId start = 0; start < size; ++start) {
                const std::vector<std::uint32_t> forward = find_reach(rig, dependencies, Grain::step, {.bone = start}, true);
                for (BoneId end = 0; end < size; ++end) {
                    std::uint32_t expected = start == end ? 0 : none;
                    if (start != end && graph.arc[start][end]) expected = 1;
                    for (BoneId between = 0; between < size && expected == none; ++between)
                        if (graph.arc[start][between] && graph.arc[between][end]) expected = 2;
                    ASSERT_EQ(forward[end], expected) << number;
                    ASSERT_EQ(find_reach(rig, dependencies, Grain::step, {.bone = end}, false)[start], expected) << number;
                    const std::vector<PathEdge> found = find_path(rig, dependencies, Grain::bone, {.bone = start}, {.bone = end});
                    const unsigned length = expected == none ? 0 : expected;
                    ASSERT_EQ(found.size(), start == end ? testing::naive_shortest_cycle(graph, start) : length) << number;
                }
            }
        }
}

}  // namespace
}  // namespace ligament
