#include "tasks.hpp"

#include <algorithm>

namespace ligament {

namespace {

/// By vertex. A driver counts where something live takes its value.
std::vector<double> find_durations(const Rig& rig, const Dependencies& dependencies, const StepCosts& costs) {
    const Graph& graph = dependencies.bone;
    std::vector<double> duration(graph.vertices.size(), 0.0);
    for (BoneId b = 0; b < graph.first_property; ++b) duration[b] = costs.bone + (rig.bones[b].curve ? costs.curve : 0.0);
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id)
        if (is_live(dependencies, id) && !constraint_of(rig, dependencies, id).is_solver())
            duration[dependencies.constraints[id].bone] += costs.constraint;
    for (std::size_t i = 0; i < dependencies.solvers.size(); ++i)
        if (is_live(dependencies, dependencies.solvers[i])) duration[graph.first_solver + i] = costs.solver;
    for (VertexId v = graph.first_object; v < graph.first_solver; ++v) duration[v] = costs.object;
    if (costs.driver > 0)
        for (const Edge& edge : graph.edges)
            if (edge.from >= graph.first_driver && edge.from < graph.first_object && !dependencies.is_inert(edge))
                duration[edge.from] = costs.driver;
    return duration;
}

Rows needs_of_tasks(const Rows& rows, const Condensation& live) {
    Rows needs;
    needs.first.reserve(live.size() + 1);
    needs.needs.reserve(rows.needs.size());
    for (std::uint32_t task = 0; task < live.size(); ++task) {
        for (std::uint32_t v : live.of(task))
            for (std::uint32_t from : rows.of(v))
                if (live.component_of[from] != task) needs.needs.push_back(live.component_of[from]);
        needs.first.push_back(static_cast<std::uint32_t>(needs.needs.size()));
    }
    return needs;
}

}  // namespace

Tasks find_tasks(const Rig& rig, const Dependencies& dependencies, const StepCosts& costs) {
    const Rows rows = live_rows(dependencies, dependencies.bone);
    const std::vector<double> duration = find_durations(rig, dependencies, costs);
    Tasks tasks;
    tasks.live = find_components(rows);
    tasks.needs = needs_of_tasks(rows, tasks.live);
    tasks.duration.assign(tasks.size(), 0.0);
    tasks.head.assign(tasks.size(), 0.0);
    tasks.behind.assign(tasks.size(), 0.0);
    for (std::uint32_t task = 0; task < tasks.size(); ++task) {
        for (std::uint32_t v : tasks.live.of(task)) tasks.duration[task] += duration[v];
        double start = 0;
        for (std::uint32_t needed : tasks.needs.of(task)) start = std::max(start, tasks.head[needed]);
        tasks.head[task] = start + tasks.duration[task];
        tasks.longest = std::max(tasks.longest, tasks.head[task]);
    }
    for (std::uint32_t task = tasks.size(); task-- > 0;)
        for (std::uint32_t needed : tasks.needs.of(task)) tasks.behind[needed] = std::max(tasks.behind[needed], tasks.tail(task));
    return tasks;
}

}  // namespace ligament
