// What do the changes between two revisions do: to verdicts, cycles, order, reach, switches and dependences?
#pragma once

#include "ligament/comparison.hpp"

namespace ligament {

// Each fills in its part of a comparison whose matching and constraints are known.
void compare_links(const Revision& before, const Revision& after, Comparison& comparison);
void compare_verdicts(const Revision& before, const Revision& after, Comparison& comparison);
void compare_cycles(const Revision& before, const Revision& after, Comparison& comparison);
void compare_order(const Revision& before, const Revision& after, Comparison& comparison);
void compare_reach(const Revision& before, const Revision& after, Comparison& comparison);
void compare_switches(const Revision& before, const Revision& after, Comparison& comparison);

}  // namespace ligament
