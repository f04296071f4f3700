// How long does an evaluation take, what may wait in it, and which one maker makes it so long? The critical path method and list
// scheduling on the tasks of the bone grain.
#include <algorithm>
#include <cmath>

#include "critical_path.hpp"
#include "ligament/facts.hpp"
#include "list_schedule.hpp"
#include "tasks.hpp"
#include "vital.hpp"

namespace ligament {

namespace {

/// Tasks that take time, those with the longest chain behind them first, ties in the order of their first vertices.
std::vector<std::uint32_t> list_tasks(const Tasks& tasks) {
    std::vector<std::uint32_t> list;
    for (VertexId v = 0; v < tasks.live.component_of.size(); ++v) {
        const std::uint32_t task = tasks.live.component_of[v];
        if (tasks.duration[task] > 0 && tasks.live.of(task).front() == v) list.push_back(task);
    }
    std::stable_sort(list.begin(), list.end(), [&](std::uint32_t a, std::uint32_t b) { return tasks.tail(a) > tasks.tail(b); });
    return list;
}

void find_times_on_workers(const Tasks& tasks, std::span<const std::uint32_t> workers, Schedule& schedule) {
    if (workers.empty()) return;
    const std::vector<std::uint32_t> list = list_tasks(tasks);
    const Rows needed_by = reversed(tasks.needs, tasks.size());
    std::uint32_t enough = none;  // workers for which no task has to wait
    for (std::uint32_t count : workers) {
        WorkersTime& entry = schedule.on_workers.emplace_back();
        entry.workers = count;
        entry.at_least = std::max(schedule.work / count, schedule.longest);
        if (count == 1 || count >= enough) {
            entry.time = count == 1 ? schedule.work : schedule.longest;
            continue;
        }
        const ListTime listed = find_list_time(tasks.needs, needed_by, tasks.duration, list, count);
        entry.time = listed.time;
        if (!listed.any_waited) enough = count;
    }
}

}  // namespace

Schedule find_schedule(const Rig& rig, const Dependencies& dependencies, const StepCosts& costs,
                       std::span<const std::uint32_t> workers) {
    const Tasks tasks = find_tasks(rig, dependencies, costs);
    Schedule schedule;
    schedule.costs = costs;
    schedule.longest = tasks.longest;
    for (double duration : tasks.duration) schedule.work += duration;
    schedule.start.reserve(rig.bones.size());
    schedule.slack.reserve(rig.bones.size());
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        const std::uint32_t task = tasks.live.component_of[b];
        const double slack = tasks.longest - tasks.head[task] - tasks.behind[task];
        schedule.start.push_back(tasks.start(task));
        schedule.slack.push_back(slack > tasks.tolerance() ? slack : 0.0);
    }
    const CriticalPath path = find_critical_path(dependencies, tasks);
    tell_critical_chain(dependencies, tasks, path, schedule);
    schedule.vital = find_vital_maker(rig, dependencies, costs, tasks, path);
    find_times_on_workers(tasks, workers, schedule);
    return schedule;
}

}  // namespace ligament
