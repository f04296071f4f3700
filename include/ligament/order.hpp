// In which order can bones be evaluated, what waits for what, and how long does it take?
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "ligament/cycles.hpp"

namespace ligament {

/// An order in which bones can be evaluated (bone grain).
struct Order {
    std::vector<BoneId> bones;                ///< every bone once
    std::vector<std::uint32_t> level;         ///< by bone id, from 1; bones of one cycle share a level
    std::vector<std::vector<BoneId>> levels;  ///< bones of each level, in file order
    std::vector<BoneId> longest_chain;  ///< one bone a level, each needing the one before; of a cycle the bone that is left by
    std::vector<FoldedEdge> longest_chain_edges;  ///< between neighbours of longest_chain, live
    std::vector<BoneId> blocked;                  ///< in no cycle themselves, but waiting for one over live edges; in file order
};

/// Kahn's method (CACM 5, 1962) on the condensation, the first bone in the file next among those whose needs are met.
Order find_order(const Rig& rig, const Dependencies& dependencies);

/// The order of a rig from which these makers are gone: their edges do not even count as inert ones.
Order find_order_without(const Rig& rig, const Dependencies& dependencies, std::span<const MakerId> makers);

/// The order of a rig from which all makers of these cuts are gone; none where nothing is cut.
std::optional<Order> find_order_after_cuts(const Rig& rig, const Dependencies& dependencies, std::span<const CycleCuts> cuts);

/// What the steps of an evaluation cost, each from 0 up to `highest`. By default time is counted in bones, as levels are.
struct StepCosts {
    static constexpr double highest = 1e9;
    double bone = 1;
    double constraint = 0;  ///< of a stack; spent where its bone is evaluated
    double driver = 0;
    double solver = 0;
    double curve = 0;  ///< a bent bone, on top of the bone
    double object = 0;

    bool operator==(const StepCosts&) const = default;
};

/// What a cost is called in calls and reports.
struct StepKind {
    std::string_view name;
    double StepCosts::*cost;
};
inline constexpr std::array<StepKind, 6> step_kinds{{{"bone", &StepCosts::bone},
                                                     {"constraint", &StepCosts::constraint},
                                                     {"driver", &StepCosts::driver},
                                                     {"solver", &StepCosts::solver},
                                                     {"curve", &StepCosts::curve},
                                                     {"object", &StepCosts::object}}};

/// Numbers of workers to look at where none are asked for.
inline constexpr std::array<std::uint32_t, 5> usual_workers{1, 2, 4, 8, 16};

/// The one maker whose absence shortens the longest chain most.
struct VitalMaker {
    MakerId maker = none;  ///< none: every longest chain has another beside it that is as long
    double shortens_by = 0;
};

/// The time that one list schedule takes on so many workers.
struct WorkersTime {
    std::uint32_t workers = 1;
    double time = 0;
    double at_least = 0;  ///< no schedule is shorter than this: the greater of work / workers and the longest chain
};

/// How long an evaluation takes at bone grain. A task is what stands on its own there: a bone with its stack, a driver, a
/// solver, an object; of each live cycle all members, one after the other, are one task. Constraints, solvers and drivers count
/// where they are live.
struct Schedule {
    StepCosts costs;
    double work = 0;                         ///< all tasks: the time on one worker
    double longest = 0;                      ///< the longest chain of tasks: the time on as many workers as could be of use
    std::vector<double> start;               ///< by bone id: when its task can start at the earliest
    std::vector<double> slack;               ///< by bone id: how much later it can start without making `longest` longer
    std::vector<BoneId> critical_chain;      ///< the bones of one chain of `longest`; of a cycle the bone that is left by
    std::vector<FoldedEdge> critical_edges;  ///< between neighbours of critical_chain
    VitalMaker vital;
    std::vector<WorkersTime> on_workers;  ///< one entry for each number of workers that was asked for
};

/// Starts and slack by the critical path method (Kelley and Walker, Proc. Eastern Joint Computer Conference 1959).
///
/// The critical chain leads back from the first task in file order that ends last, over the first edge of each that makes it
/// wait longest. `vital` is exact, and ties go to the maker that stands first in the file: it is looked for among the makers of
/// that chain, since no other can shorten it, by the cut that each makes in a topological order (Malik, Mittal, Gupta, Operations
/// Research Letters 8, 1989). Makers of edges inside a live cycle are left out: without them the cycle is another one.
///
/// On N workers the ready task with the longest chain behind it is taken first, ties in file order (Graham, Bell System Technical
/// Journal 45, 1966): one list schedule, not the best one, and one for which more workers may take longer. What costs nothing
/// needs no worker. Of E edges all takes O(E log E), the list schedule once for each number of workers.
Schedule find_schedule(const Rig& rig, const Dependencies& dependencies, const StepCosts& costs = {},
                       std::span<const std::uint32_t> workers = {});

}  // namespace ligament
