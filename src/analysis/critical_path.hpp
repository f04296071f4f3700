// Which chain of tasks takes longest?
#pragma once

#include <vector>

#include "ligament/facts.hpp"
#include "tasks.hpp"

namespace ligament {

struct CriticalPath {
    std::vector<std::uint32_t> tasks;  ///< the first starts at 0, the last ends at Tasks::longest; empty without tasks
    std::vector<PathEdge> edges;       ///< of the bone grain: edges[i] leads from tasks[i] to tasks[i + 1]
};

/// Back from the first task in file order that ends last, over the first edge of each, in the order of the graph, that makes it
/// wait as long as it does. Does not end at the driver of a weight, since what takes the weight ends no earlier. Linear.
CriticalPath find_critical_path(const Dependencies& dependencies, const Tasks& tasks);

/// Whether the task is the driver of a weight and nothing else.
bool is_weight_driver(const Dependencies& dependencies, const Tasks& tasks, std::uint32_t task);

/// Fills critical_chain and critical_edges.
void tell_critical_chain(const Dependencies& dependencies, const Tasks& tasks, const CriticalPath& path, Schedule& schedule);

}  // namespace ligament
