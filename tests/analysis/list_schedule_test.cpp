// Does each free worker take the first ready task of the list? Held against published figures and bounds.
#include "list_schedule.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "naive_graph.hpp"

namespace ligament {
namespace {

using testing::Arcs;

Rows needs_of(unsigned tasks, const Arcs& arcs) {
    Rows needs;
    for (unsigned v = 0; v < tasks; ++v) {
        for (const auto& [before, after] : arcs)
            if (after == v) needs.needs.push_back(before);
        needs.first.push_back(static_cast<std::uint32_t>(needs.needs.size()));
    }
    return needs;
}

double time_of(const std::vector<double>& duration, const Arcs& arcs, const std::vector<std::uint32_t>& list, unsigned workers) {
    const auto tasks = static_cast<unsigned>(duration.size());
    const Rows needs = needs_of(tasks, arcs);
    const Rows needed_by = reversed(needs, tasks);
    return ListSchedule(needs, needed_by, duration, list).on(workers).time;
}

// R. L. Graham, Bounds on multiprocessing timing anomalies, SIAM J. Applied Mathematics 17 (1969): nine tasks, from memory; the
// times are recomputed. Tasks are numbered from 0 here.
const std::vector<double> graham_times{3, 2, 2, 2, 4, 4, 4, 4, 9};
const Arcs graham_arcs{{0, 8}, {3, 4}, {3, 5}, {3, 6}, {3, 7}};
const std::vector<std::uint32_t> graham_list{0, 1, 2, 3, 4, 5, 6, 7, 8};

TEST(ListSchedule, OfGrahamsNineTasksOnThreeWorkers) { EXPECT_EQ(time_of(graham_times, graham_arcs, graham_list, 3), 12); }

TEST(ListSchedule, OfGrahamsNineTasksTakesLongerWithAnotherList) {
    EXPECT_EQ(time_of(graham_times, graham_arcs, {0, 1, 3, 4, 5, 2, 8, 6, 7}, 3), 14);
}

TEST(ListSchedule, OfGrahamsNineTasksTakesLongerOnFourWorkers) {
    EXPECT_EQ(time_of(graham_times, graham_arcs, graham_list, 4), 15);
}

TEST(ListSchedule, OfGrahamsNineTasksTakesLongerWhenEachTakesOneLess) {
    std::vector<double> shorter = graham_times;
    for (double& time : shorter) time -= 1;
    EXPECT_EQ(time_of(shorter, graham_arcs, graham_list, 3), 13);
}

TEST(ListSchedule, OfGrahamsNineTasksTakesLongerWithFewerDependences) {
    EXPECT_EQ(time_of(graham_times, {{0, 8}, {3, 6}, {3, 7}}, graham_list, 3), 16);
}

TEST(ListSchedule, SaysWhetherAnyTaskWaitedForAWorker) {
    const Rows none_needed = needs_of(3, {});
    const std::vector<double> duration{1, 1, 1};
    const std::vector<std::uint32_t> list{0, 1, 2};
    const Rows needed_by = reversed(none_needed, 3);
    const ListSchedule schedule(none_needed, needed_by, duration, list);
    EXPECT_TRUE(schedule.on(2).any_waited);
    EXPECT_FALSE(schedule.on(3).any_waited);
}

TEST(ListSchedule, NeedsNoWorkerForWhatTakesNoTime) {
    // 0 and 1 take the only worker; 2 stands between 0 and 3.
    EXPECT_EQ(time_of({1, 5, 0, 1}, {{0, 2}, {2, 3}}, {0, 3, 1}, 1), 7);
    EXPECT_EQ(time_of({0, 0}, {{0, 1}}, {}, 1), 0);
}

TEST(ListSchedule, OfNothingTakesNoTime) { EXPECT_EQ(time_of({}, {}, {}, 4), 0); }

/// One task after the other in time: at each moment the free workers take the first ready tasks.
double naive_time(const std::vector<double>& duration, const Arcs& arcs, const std::vector<std::uint32_t>& list,
                  unsigned workers) {
    const std::size_t tasks = duration.size();
    std::vector<double> left = duration;
    std::vector<char> started(tasks, 0), done(tasks, 0);
    double now = 0;
    while (true) {
        const auto is_ready = [&](std::size_t task) {
            return std::all_of(arcs.begin(), arcs.end(), [&](const auto& arc) { return arc.second != task || done[arc.first]; });
        };
        for (bool again = true; again;) {
            again = false;
            for (std::size_t task = 0; task < tasks; ++task)
                if (!done[task] && duration[task] == 0 && is_ready(task)) done[task] = again = true;
        }
        auto busy = static_cast<unsigned>(
            std::count(started.begin(), started.end(), 1) -
            std::count_if(list.begin(), list.end(), [&](auto task) { return started[task] && done[task]; }));
        for (std::uint32_t task : list)
            if (!started[task] && busy < workers && is_ready(task)) {
                started[task] = 1;
                ++busy;
            }
        double step = 0;
        for (std::size_t task = 0; task < tasks; ++task)
            if (started[task] && !done[task]) step = step == 0 ? left[task] : std::min(step, left[task]);
        if (step == 0) return now;
        now += step;
        for (std::size_t task = 0; task < tasks; ++task)
            if (started[task] && !done[task]) done[task] = (left[task] -= step) == 0;
    }
}

// R. P. Brent, Journal of the ACM 21 (1974): the greedy bound; Graham 1969: at most 2 - 1/P times the best.
TEST(ListSchedule, IsTheNaiveOneAndKeepsTheBoundsOfBrentAndGraham) {
    testing::Random random(11);
    for (unsigned round = 0; round < 3000; ++round) {
        const unsigned tasks = 1 + random.below(12), workers = 1 + random.below(5);
        Arcs arcs;
        for (unsigned v = 1; v < tasks; ++v)
            for (unsigned u = 0; u < v; ++u)
                if (random.below(4) == 0) arcs.emplace_back(u, v);
        std::vector<double> duration, head(tasks, 0);
        for (unsigned v = 0; v < tasks; ++v) duration.push_back(round % 3 == 0 ? 3 * random.below(2) : random.below(6));
        std::vector<std::uint32_t> list;
        for (std::uint32_t v = 0; v < tasks; ++v)
            if (duration[v] > 0) list.push_back(v);
        std::shuffle(list.begin(), list.end(), random.engine);
        double longest = 0;
        for (unsigned v = 0; v < tasks; ++v) {
            for (const auto& [before, after] : arcs)
                if (after == v) head[v] = std::max(head[v], head[before]);
            longest = std::max(longest, head[v] += duration[v]);
        }
        const double work = std::accumulate(duration.begin(), duration.end(), 0.0);
        const double time = time_of(duration, arcs, list, workers);
        ASSERT_EQ(time, naive_time(duration, arcs, list, workers)) << "round " << round;
        ASSERT_GE(time, std::max(longest, work / workers) - 1e-9);
        ASSERT_LE(time, longest + (work - longest) / workers + 1e-9);
        ASSERT_LE(time, (2 - 1.0 / workers) * std::max(longest, work / workers) + 1e-9);
        ASSERT_EQ(time_of(duration, arcs, list, 1), work);
    }
}

}  // namespace
}  // namespace ligament
