// Are starts, slack, the critical chain and the vital maker those of the critical path method?
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include "digraph_rig.hpp"
#include "ligament/facts.hpp"
#include "mixed_rig.hpp"
#include "naive_graph.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::Digraph;
using testing::tiny_rig;

Schedule schedule_of(const Rig& rig, const StepCosts& costs = {}, std::vector<std::uint32_t> workers = {}) {
    return find_schedule(rig, build_dependencies(rig), costs, workers);
}

std::string vital_of(const Rig& rig, const StepCosts& costs = {}) {
    const Dependencies dependencies = build_dependencies(rig);
    const VitalMaker vital = find_schedule(rig, dependencies, costs).vital;
    return vital.maker == none ? "none"
                               : name_of(rig, dependencies, vital.maker) + " by " + std::to_string(int(vital.shortens_by));
}

std::string names_of(const Rig& rig, const std::vector<BoneId>& bones) {
    std::string text;
    for (BoneId b : bones) text += (text.empty() ? "" : " ") + rig.bones[b].name;
    return text;
}

// ---- Published figures

/// Bones whose tasks take these times, at a cost of 0 a bone and 1 a constraint: limits fill up what the arcs leave.
Rig jobs(const std::vector<unsigned>& times, const testing::Arcs& arcs) {
    Rig rig = testing::rig_of(Digraph(static_cast<unsigned>(times.size()), arcs));
    for (std::size_t b = 0; b < times.size(); ++b)
        while (rig.bones[b].constraints.size() < times[b]) {
            Constraint limit;
            limit.kind = ConstraintKind::limit;
            rig.bones[b].constraints.push_back(limit);
        }
    return rig;
}

// Sedgewick and Wayne, Algorithms, 4th edition, section 4.4, parallel job scheduling; figures from memory, recomputed.
TEST(Schedule, OfTheJobsOfSedgewickAndWayne) {
    const Rig rig = jobs({41, 51, 50, 36, 38, 45, 21, 32, 32, 29},
                         {{0, 1}, {0, 7}, {0, 9}, {1, 2}, {6, 3}, {6, 8}, {7, 3}, {7, 8}, {8, 2}, {9, 4}, {9, 6}});
    const Schedule schedule = schedule_of(rig, {.bone = 0, .constraint = 1}, {1, 2, 100});
    EXPECT_EQ(schedule.longest, 173);
    EXPECT_EQ(schedule.work, 375);
    EXPECT_EQ(schedule.start, (std::vector<double>{0, 41, 123, 91, 70, 0, 70, 41, 91, 41}));
    EXPECT_EQ(schedule.slack, (std::vector<double>{0, 31, 0, 46, 65, 128, 0, 18, 0, 0}));
    EXPECT_EQ(names_of(rig, schedule.critical_chain), "b0 b9 b6 b8 b2");
    ASSERT_EQ(schedule.on_workers.size(), 3u);
    EXPECT_EQ(schedule.on_workers[0].time, 375);
    EXPECT_EQ(schedule.on_workers[1].at_least, 187.5);
    EXPECT_EQ(schedule.on_workers[2].time, 173);
    EXPECT_EQ(schedule.on_workers[2].at_least, 173);
}

/// A rig whose bones are the letters and whose arcs are pairs of letters.
Rig lettered(const std::string& letters, const std::string& arcs) {
    Digraph graph(static_cast<unsigned>(letters.size()));
    for (std::size_t i = 0; i + 1 < arcs.size(); i += 3) graph.arc[letters.find(arcs[i])][letters.find(arcs[i + 1])] = true;
    Rig rig = testing::rig_of(graph);
    for (std::size_t i = 0; i < letters.size(); ++i) rig.bones[i].name = letters[i];
    return rig;
}

/// "a 0+1 b 1+0": start and slack.
std::string starts_and_slack(const Rig& rig) {
    const Schedule schedule = schedule_of(rig);
    std::string text;
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        text += (b == 0 ? "" : " ") + rig.bones[b].name + " " + std::to_string(int(schedule.start[b])) + "+" +
                std::to_string(int(schedule.slack[b]));
    return text;
}

// Cormen, Leiserson, Rivest, Stein, Introduction to Algorithms, getting dressed; edges from memory, the height of 4 computed.
// Each piece takes one unit of time here; the slack follows by hand.
TEST(Schedule, OfGettingDressed) {
    // B belt, J jacket, P pants, S shirt, C shoes, K socks, T tie, U undershorts, W watch
    const Rig rig = lettered("BJPSCKTUW", "UP UC KC PC PB SB ST TJ BJ");
    EXPECT_EQ(schedule_of(rig).longest, 4);
    EXPECT_EQ(starts_and_slack(rig), "B 2+0 J 3+0 P 1+0 S 0+1 C 2+1 K 0+2 T 1+1 U 0+0 W 0+3");
    EXPECT_EQ(names_of(rig, schedule_of(rig).critical_chain), "U P B J");
}

// The same book, the exercise with vertices m to z; edges from memory, the height of 8 computed.
TEST(Schedule, OfTheExerciseOfCormenAndOthers) {
    const Rig rig = lettered("mnopqrstuvwxyz", "mq mr mx no nq nu or os ov po ps pz qt ru ry sr ut vw vx wz yv");
    EXPECT_EQ(schedule_of(rig).longest, 8);
    EXPECT_EQ(names_of(rig, schedule_of(rig).critical_chain), "n o s r y v w z");
}

// ---- What counts, and how much

constexpr StepCosts all_cost{.bone = 1, .constraint = 10, .driver = 100, .solver = 1000, .curve = 10'000, .object = 100'000};

TEST(Schedule, CountsStepsByTheirKind) {
    EXPECT_EQ(schedule_of(tiny_rig("{'name': 'a'}, {'name': 'b', 'parent': 'a'}"), all_cost).longest, 2);
    EXPECT_EQ(schedule_of(tiny_rig("{'name': 'a', 'curve': {}}"), all_cost).longest, 10'001);
    EXPECT_EQ(schedule_of(tiny_rig("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'scale', 'from': 'a'}, {'kind': "
                                   "'limit', 'channels': ['scale']}]}"),
                          all_cost)
                  .longest,
              22);
    EXPECT_EQ(schedule_of(tiny_rig("{'name': 'a', 'constraints': [{'kind': 'ik', 'chain': 1, 'target': 'b'}]}, {'name': 'b'}"),
                          all_cost)
                  .longest,
              1002);
    EXPECT_EQ(schedule_of(tiny_rig("{'name': 'a', 'constraints': [{'kind': 'surface', 'from': {'object': 'o'}}]}, {'name': 'b'}",
                                   "'objects': [{'name': 'o', 'follows': ['b']}]"),
                          all_cost)
                  .longest,
              100'012);
    EXPECT_EQ(
        schedule_of(tiny_rig("{'name': 'a', 'channels': {'scale.x': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}}",
                             "'properties': [{'name': 'p'}]"),
                    all_cost)
            .longest,
        101);
}

TEST(Schedule, LeavesOutWhatIsNotLive) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'constraints': [{'kind': 'scale', 'from': 'b', 'enabled': false, 'weight': {'expression': 'p', 'inputs': "
        "{'p': {'property': 'p'}}}}, {'kind': 'ik', 'chain': 1, 'target': 'b', 'weight': 0}]}, {'name': 'b'}",
        "'properties': [{'name': 'p'}]");
    EXPECT_EQ(schedule_of(rig, all_cost).work, 2);
    EXPECT_EQ(schedule_of(rig, all_cost).longest, 1);
}

TEST(Schedule, TakesTheMembersOfACycleOneAfterTheOther) {
    const Rig rig = tiny_rig(R"({'name': 'r'}, {'name': 'a', 'parent': 'r', 'constraints': [{'kind': 'scale', 'from': 'b'}]},
                                {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'}, {'name': 'd'})");
    const Schedule schedule = schedule_of(rig, {}, {4});
    EXPECT_EQ(schedule.longest, 4);
    EXPECT_EQ(schedule.start, (std::vector<double>{0, 1, 1, 3, 0}));
    EXPECT_EQ(schedule.slack, (std::vector<double>{0, 0, 0, 0, 3}));
    EXPECT_EQ(names_of(rig, schedule.critical_chain), "r b c");
    EXPECT_EQ(schedule.on_workers[0].time, 4);
}

TEST(Schedule, RoundingMakesNoSlack) {
    const Rig rig =
        tiny_rig(R"({'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'}, {'name': 'd', 'parent': 'c'},
                                {'name': 'w', 'parent': 'a'}, {'name': 'x', 'parent': 'w'}, {'name': 'y', 'parent': 'x'})");
    EXPECT_EQ(schedule_of(rig, {.bone = 0.1}).slack, (std::vector<double>(7, 0.0)));
}

TEST(Schedule, OfNothingIsNothing) {
    const Schedule schedule = schedule_of(Rig{}, {}, {1, 2});
    EXPECT_EQ(schedule.longest, 0);
    EXPECT_EQ(schedule.on_workers[1].time, 0);
    EXPECT_EQ(schedule.vital.maker, none);
    EXPECT_TRUE(schedule.critical_chain.empty());
}

// ---- The vital maker

TEST(Schedule, NamesTheLinkThatShortensMost) {
    EXPECT_EQ(vital_of(tiny_rig(
                  "{'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'}, {'name': 'd', 'parent': 'c'}")),
              "c by 2");
    EXPECT_EQ(vital_of(tiny_rig("{'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'}")), "b by 1");
}

TEST(Schedule, NamesNoLinkWhereTwoChainsAreLongest) {
    EXPECT_EQ(vital_of(tiny_rig("{'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'x'}, {'name': 'y', 'parent': 'x'}")),
              "none");
}

TEST(Schedule, TakesAllEdgesOfAMakerAtOnce) {
    EXPECT_EQ(vital_of(tiny_rig(R"({'name': 'a'}, {'name': 'x'}, {'name': 'b', 'parent': 'a'},
                                   {'name': 'y', 'parent': 'x'},
                                   {'name': 'c', 'constraints': [{'name': 'both', 'kind': 'scale', 'from': ['b', 'y']}]})")),
              "c/both by 1");
}

TEST(Schedule, CountsTheTimeOfTheConstraintItself) {
    EXPECT_EQ(
        vital_of(tiny_rig("{'name': 'a', 'constraints': [{'name': 'stop', 'kind': 'limit', 'channels': ['scale']}]}"), all_cost),
        "a/stop by 10");
}

// Which edges are taken away is seen at the gates, inertness included: the naive side knows nothing of owners or cuts.
struct NaiveVital {
    MakerId maker = none;
    double by = 0;
};

bool is_inside_a_cycle(const Dependencies& dependencies, const std::vector<unsigned>& component, MakerId maker) {
    const MakerId makers[] = {maker};
    const Dependencies left = dependencies_without(dependencies, makers);
    const Graph& graph = dependencies.bone;
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        for (std::uint32_t e = graph.rows[v]; e < graph.rows[v + 1]; ++e)
            if (component[v] == component[graph.edges[e].from] && !dependencies.is_inert(graph.edges[e]) &&
                left.is_inert(left.bone.edges[e]))
                return true;
    return false;
}

Digraph live_digraph(const Dependencies& dependencies) {
    const Graph& graph = dependencies.bone;
    Digraph live(static_cast<unsigned>(graph.vertices.size()));
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        for (const Edge& edge : graph.needs(v))
            if (!dependencies.is_inert(edge)) live.arc[edge.from][v] = true;
    return live;
}

NaiveVital naive_vital(const Rig& rig, const Dependencies& dependencies, const StepCosts& costs) {
    const std::vector<unsigned> component = testing::naive_components(live_digraph(dependencies));
    const double longest = find_schedule(rig, dependencies, costs).longest;
    NaiveVital best;
    for (MakerId maker = 0; maker < dependencies.makers.size(); ++maker) {
        if (dependencies.makers[maker].kind == Maker::Kind::stack || is_inside_a_cycle(dependencies, component, maker)) continue;
        const MakerId makers[] = {maker};
        const double by = longest - find_schedule(rig, dependencies_without(dependencies, makers), costs).longest;
        const auto file_order = [&](MakerId m) {
            const Place at = place_of(rig, dependencies, m);
            return std::tuple(at.line, at.column, m);
        };
        if (by > best.by || (by > 0 && by == best.by && file_order(maker) < file_order(best.maker))) best = {maker, by};
    }
    return best;
}

/// The longest chain by trying all: times of the components' members summed, the longest way over distinct components.
double naive_longest(const Dependencies& dependencies, const std::vector<double>& duration) {
    const Digraph live = live_digraph(dependencies);
    const std::vector<unsigned> component = testing::naive_components(live);
    std::vector<double> time(live.size(), 0), head(live.size(), 0);
    for (unsigned v = 0; v < live.size(); ++v) time[component[v]] += duration[v];
    for (unsigned round = 0; round <= live.size(); ++round)
        for (unsigned v = 0; v < live.size(); ++v) {
            double start = 0;
            for (unsigned w = 0; w < live.size(); ++w)
                for (unsigned u = 0; u < live.size(); ++u)
                    if (component[w] == component[v] && component[u] != component[v] && live.arc[u][w])
                        start = std::max(start, head[u]);
            head[v] = start + time[component[v]];
        }
    return head.empty() ? 0 : *std::max_element(head.begin(), head.end());
}

const std::vector<StepCosts> some_costs{
    {}, {1, 2, 3, 4, 5, 6}, {0, 1, 0, 0, 0, 0}, {0, 0, 1, 1, 0, 1}, {3, 0, 0, 2, 1, 0}, {0, 0, 0, 0, 0, 0}};

TEST(Schedule, VitalMakerIsTheOneFoundByTakingEachAwayOnRandomRigs) {
    testing::Random random(21);
    std::map<Maker::Kind, unsigned> seen;
    unsigned nobody = 0;
    for (unsigned round = 0; round < 1200; ++round) {
        const Rig rig = testing::mixed_rig(random, {.bones = 3 + random.below(9), .backwards = round % 3 == 0 ? 8u : 0u});
        const Dependencies dependencies = build_dependencies(rig);
        const StepCosts& costs = some_costs[round % some_costs.size()];
        const VitalMaker vital = find_schedule(rig, dependencies, costs).vital;
        const NaiveVital naive = naive_vital(rig, dependencies, costs);
        ASSERT_EQ(vital.shortens_by, naive.by) << "round " << round;
        ASSERT_EQ(vital.maker, naive.maker) << "round " << round;
        if (vital.maker == none)
            ++nobody;
        else
            ++seen[dependencies.makers[vital.maker].kind];
    }
    // Every sort of maker but that of the stack, and none at all, must have come up.
    EXPECT_EQ(seen.size(), 6u);
    EXPECT_GT(nobody, 0u);
}

TEST(Schedule, AgreesWithTheLongestWayOverComponentsOnRandomRigs) {
    testing::Random random(22);
    for (unsigned round = 0; round < 300; ++round) {
        const Rig rig = testing::mixed_rig(random, {.bones = 2 + random.below(7), .backwards = round % 2 * 10u});
        const Dependencies dependencies = build_dependencies(rig);
        std::vector<double> duration(dependencies.bone.vertices.size(), 0.0);
        std::fill_n(duration.begin(), rig.bones.size(), 1.0);
        const Schedule schedule = find_schedule(rig, dependencies, {}, std::vector<std::uint32_t>{1, 2, 3, 64});
        ASSERT_EQ(schedule.longest, naive_longest(dependencies, duration)) << "round " << round;
        ASSERT_EQ(schedule.work, static_cast<double>(rig.bones.size()));
        ASSERT_EQ(schedule.on_workers[0].time, schedule.work);
        ASSERT_EQ(schedule.on_workers[3].time, schedule.longest);
        for (const WorkersTime& entry : schedule.on_workers) {
            ASSERT_GE(entry.time, entry.at_least);
            ASSERT_LE(entry.time, schedule.longest + (schedule.work - schedule.longest) / entry.workers + 1e-9);  // Brent 1974
        }
        // Without slack a bone lies on a chain of full length; the critical chain has such bones only.
        for (BoneId b : schedule.critical_chain) ASSERT_EQ(schedule.slack[b], 0);
        ASSERT_EQ(schedule.critical_edges.size() + 1, schedule.critical_chain.size());
    }
}

// Slack is what a task can be made longer by without making the whole longer: limits, which wait for nobody, are added.
TEST(Schedule, SlackIsHowMuchLongerABoneMayTakeOnRandomRigs) {
    testing::Random random(23);
    for (unsigned round = 0; round < 300; ++round) {
        Rig rig = testing::mixed_rig(random, {.bones = 2 + random.below(7), .backwards = round % 2 * 10u});
        const StepCosts costs{.bone = 0, .constraint = 1};
        const Schedule schedule = schedule_of(rig, costs);
        const auto bone = static_cast<BoneId>(random.below(static_cast<unsigned>(rig.bones.size())));
        Constraint limit;
        limit.kind = ConstraintKind::limit;
        limit.name = "longer";
        for (double more = schedule.slack[bone]; more > 0; --more) rig.bones[bone].constraints.push_back(limit);
        ASSERT_EQ(schedule_of(rig, costs).longest, schedule.longest) << "round " << round;
        rig.bones[bone].constraints.push_back(limit);
        ASSERT_EQ(schedule_of(rig, costs).longest, schedule.longest + 1) << "round " << round;
    }
}

// ---- Blocked bones, and the order without makers

TEST(Order, TellsBonesThatWaitForACycle) {
    const Rig rig = tiny_rig(R"({'name': 'w', 'constraints': [{'kind': 'scale', 'from': 'c', 'enabled': false}]},
                                {'name': 'z', 'channels': {'scale.x': {'expression': 'x', 'inputs': {'x': {'bone': 'c', 'channel': 'scale.x'}}}}},
                                {'name': 'r'}, {'name': 'a', 'parent': 'r', 'constraints': [{'kind': 'scale', 'from': 'b'}]},
                                {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'})");
    EXPECT_EQ(names_of(rig, find_order(rig, build_dependencies(rig)).blocked), "z c");
}

TEST(Order, WithoutMakersIsThatOfARigThatNeverHadThem) {
    const Rig rig = tiny_rig(
        R"({'name': 'r'}, {'name': 'a', 'parent': 'r', 'constraints': [{'name': 's', 'kind': 'scale', 'from': ['b', 'y']}]},
                                {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'}, {'name': 'y'})");
    const Dependencies dependencies = build_dependencies(rig);
    EXPECT_EQ(names_of(rig, find_order(rig, dependencies).bones), "r y a b c");
    std::vector<MakerId> makers;
    for (MakerId m = 0; m < dependencies.makers.size(); ++m)
        if (dependencies.makers[m].kind == Maker::Kind::constraint) makers.push_back(m);
    const Order order = find_order_without(rig, dependencies, makers);
    EXPECT_EQ(names_of(rig, order.bones), "r a b c y");
    EXPECT_EQ(order.levels.size(), 4u);
    EXPECT_TRUE(order.blocked.empty());
    // Switched off they would still come first, as inert ones do.
    EXPECT_EQ(names_of(rig, find_order(rig, dependencies_without(dependencies, makers)).bones), "r y a b c");
}

#if defined(__SANITIZE_ADDRESS__)
constexpr unsigned many = 100'000;
#else
constexpr unsigned many = 1'000'000;
#endif

// Each bone hangs under the next one in the file.
TEST(Schedule, OfAChainOfAMillionIsFoundWithoutRecursion) {
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
    dependencies.makers.resize(many);
    for (unsigned v = 0; v < many; ++v) dependencies.makers[v] = {Maker::Kind::parent_link, v};
    Rig rig;
    rig.bones.resize(many);
    const Schedule schedule = find_schedule(rig, dependencies, {}, std::vector<std::uint32_t>{1, 2});
    EXPECT_EQ(schedule.longest, many);
    EXPECT_EQ(schedule.critical_chain.size(), many);
    EXPECT_EQ(schedule.on_workers[1].time, many);
    EXPECT_EQ(schedule.vital.maker, many / 2 - 1);
    EXPECT_EQ(schedule.vital.shortens_by, many / 2);
}

}  // namespace
}  // namespace ligament
