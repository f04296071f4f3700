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
    struct Listed {
        double tail;
        std::uint32_t task;
    };
    std::vector<Listed> sorted;  // with what they are sorted by at hand
    for (VertexId v = 0; v < tasks.live.component_of.size(); ++v) {
        const std::uint32_t task = tasks.live.component_of[v];
        if (tasks.duration[task] > 0 && tasks.live.of(task).front() == v) sorted.push_back({tasks.tail(task), task});
    }
    std::stable_sort(sorted.begin(), sorted.end(), [](const Listed& a, const Listed& b) { return a.tail > b.tail; });
    std::vector<std::uint32_t> list;
    list.reserve(sorted.size());
    for (const Listed& listed : sorted) list.push_back(listed.task);
    return list;
}

void find_times_on_workers(const Tasks& tasks, std::span<const std::uint32_t> workers, Schedule& schedule) {
    if (workers.empty()) return;
    const Rows needed_by = reversed(tasks.needs, tasks.size());
    const ListSchedule schedules(tasks.needs, needed_by, tasks.duration, list_tasks(tasks));
    std::uint32_t enough = none;  // workers for which no task has to wait
    for (std::uint32_t count : workers) {
        WorkersTime& entry = schedule.on_workers.emplace_back();
        entry.workers = count;
        entry.at_least = std::max(schedule.work / count, schedule.longest);
        if (count == 1 || count >= enough) {
            entry.time = count == 1 ? schedule.work : schedule.longest;
            continue;
        }
        const ListTime listed = schedules.on(count);
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
