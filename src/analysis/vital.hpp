// Which one maker makes the longest chain as long as it is?
#pragma once

#include "critical_path.hpp"

namespace ligament {

/// The maker whose absence shortens the longest chain of tasks most, ties to the first in file order; see find_schedule.
///
/// All live edges that a maker takes with it enter one task x, or it takes x itself away (a solver, a driver). In a topological
/// order every chain that avoids x lies before x, or behind it, or has exactly one edge that leads over it from u before to v
/// behind: the longest of these is the longest chain to u plus that from v. Chains through x are those of the edges into it that
/// are left. So all makers of one critical path cost no more than one pass over the edges with a heap, O(E log E).
VitalMaker find_vital_maker(const Rig& rig, const Dependencies& dependencies, const StepCosts& costs, const Tasks& tasks,
                            const CriticalPath& path);

}  // namespace ligament
