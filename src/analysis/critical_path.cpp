#include "critical_path.hpp"

#include <algorithm>
#include <optional>
#include <span>

#include "folding.hpp"

namespace ligament {

namespace {

/// The edge that leads into the task from one that ends when it starts.
std::optional<PathEdge> find_tight_edge(const Dependencies& dependencies, const Tasks& tasks, std::uint32_t task) {
    const Graph& graph = dependencies.bone;
    double latest = 0;
    for (std::uint32_t needed : tasks.needs.of(task)) latest = std::max(latest, tasks.head[needed]);
    if (latest <= 0) return {};
    for (VertexId v : tasks.live.of(task))
        for (std::uint32_t e = graph.rows[v]; e < graph.rows[v + 1]; ++e) {
            const std::uint32_t from = tasks.live.component_of[graph.edges[e].from];
            if (from != task && tasks.head[from] >= latest && !dependencies.is_inert(graph.edges[e]))
                return PathEdge{graph.edges[e].from, v, e};
        }
    return {};
}

/// The bone of a task that stands for it: the one that it is left by, else the first, or none where it has no bone.
BoneId bone_of_task(const Graph& graph, const Tasks& tasks, std::uint32_t task, VertexId left_by) {
    if (left_by < graph.first_property) return left_by;
    const VertexId first = tasks.live.of(task).front();
    return first < graph.first_property ? first : none;
}

}  // namespace

bool is_weight_driver(const Dependencies& dependencies, const Tasks& tasks, std::uint32_t task) {
    const Graph& graph = dependencies.bone;
    const VertexId v = tasks.live.of(task).front();
    if (tasks.live.of(task).size() > 1 || v < graph.first_driver || v >= graph.first_object) return false;
    const DriverUse::Target target = dependencies.driver_uses[v - graph.first_driver].target;
    return target == DriverUse::Target::weight || target == DriverUse::Target::source_weight;
}

CriticalPath find_critical_path(const Dependencies& dependencies, const Tasks& tasks) {
    CriticalPath path;
    std::uint32_t last = none;
    for (std::uint32_t task = 0; task < tasks.size(); ++task)
        if (tasks.head[task] >= tasks.longest && !is_weight_driver(dependencies, tasks, task) &&
            (last == none || tasks.live.of(task).front() < tasks.live.of(last).front()))
            last = task;
    if (last == none) return path;
    path.tasks.push_back(last);
    while (const std::optional<PathEdge> edge = find_tight_edge(dependencies, tasks, path.tasks.back())) {
        path.edges.push_back(*edge);
        path.tasks.push_back(tasks.live.component_of[edge->from]);
    }
    std::reverse(path.tasks.begin(), path.tasks.end());
    std::reverse(path.edges.begin(), path.edges.end());
    return path;
}

void tell_critical_chain(const Dependencies& dependencies, const Tasks& tasks, const CriticalPath& path, Schedule& schedule) {
    const Graph& graph = dependencies.bone;
    std::size_t left = 0;  // by which edge the bone before was left
    for (std::size_t i = 0; i < path.tasks.size(); ++i) {
        const bool is_last = i == path.edges.size();
        const BoneId bone = bone_of_task(graph, tasks, path.tasks[i], is_last ? none : path.edges[i].from);
        if (bone == none) continue;
        if (!schedule.critical_chain.empty()) {
            const VertexId entry = path.edges[i - 1].to;
            schedule.critical_edges.push_back(fold_edges(graph, std::span(path.edges).subspan(left, i - left),
                                                         schedule.critical_chain.back(),
                                                         entry < graph.first_property ? entry : bone));
        }
        schedule.critical_chain.push_back(bone);
        left = i;
    }
}

}  // namespace ligament
