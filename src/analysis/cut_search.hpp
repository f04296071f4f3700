// Which cut is the cheapest? Exact search by branching over bounds of linear programs.
#pragma once

#include "cut_problem.hpp"

namespace ligament {

/// The cheapest answer, exact unless the budget ends first; then the best one that was found, with the highest bound proven.
///
/// The cut as a hitting set whose sets, the cycles, are generated as they are needed (Karp and Moreno-Centeno, Operations
/// Research 61, 2013; for feedback arc sets Baharev, Schichl, Neumaier and Achterberg, ACM J. Experimental Algorithmics 26,
/// 2021): after the reductions of reduce_cut each part starts from find_cut_start and is then branched over its items, bounded by
/// Packing. Of equal answers the first is found by asking, item after item, whether an answer of that weight holds it.
CutAnswer find_cheapest_cut(const CutProblem& problem, Budget& budget);

}  // namespace ligament
