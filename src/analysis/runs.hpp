// Which bones are built alike, one hanging under the other? Runs of equal stacks, in which a switch is expected to gate all or
// none.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "ligament/switches.hpp"
#include "rows.hpp"

namespace ligament {

/// Bones linked by parents whose constraints, inert ones left out, have equal kinds in equal order. Bones without such
/// constraints are in no run.
struct Runs {
    std::vector<std::uint32_t> run_of;    ///< by bone: its run, or none
    Rows members;                         ///< by run: its bones, ascending
    std::vector<std::uint32_t> place_of;  ///< by constraint: its place among the bone's that are not inert, or none
    Rows stacks;                          ///< by bone: its constraints that are not inert

    ConstraintId at(BoneId bone, std::uint32_t place) const { return stacks.of(bone)[place]; }
};

Runs find_runs(const Rig& rig, const Dependencies& dependencies);

/// The bones of runs that a switch leaves out; see SwitchGap.
std::vector<SwitchGap> find_switch_gaps(const Dependencies& dependencies, const Runs& runs, const std::vector<Switch>& switches);

}  // namespace ligament
