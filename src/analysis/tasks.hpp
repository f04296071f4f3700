// What is there to do at bone grain, how long does each take, and what must be done before it?
#pragma once

#include <cstdint>
#include <vector>

#include "components.hpp"
#include "ligament/order.hpp"

namespace ligament {

/// Tasks are the components of the live bone grain, numbered so that a task comes after all that it needs.
struct Tasks {
    Condensation live;
    Rows needs;                    ///< by task: the tasks that it needs, one entry an edge
    std::vector<double> duration;  ///< by task
    std::vector<double> head;      ///< by task: the longest chain that ends with it, its own time included
    std::vector<double> behind;    ///< by task: the longest chain that may follow it
    double longest = 0;

    std::uint32_t size() const { return live.size(); }
    double start(std::uint32_t task) const { return head[task] - duration[task]; }
    /// The longest chain that starts with it, its own time included.
    double tail(std::uint32_t task) const { return duration[task] + behind[task]; }
    /// What is below this is rounding, not time.
    double tolerance() const { return longest * 1e-12 * static_cast<double>(size()); }
};

Tasks find_tasks(const Rig& rig, const Dependencies& dependencies, const StepCosts& costs);

/// Whether a constraint or solver counts: neither inert nor switched off.
inline bool is_live(const Dependencies& dependencies, ConstraintId id) {
    const Gate& gate = dependencies.gates[id + 1];
    return !gate.inert && !gate.off;
}

}  // namespace ligament
