// What is a good cut to begin with, and how far from the best can it be? Heuristics with a proven bound.
#pragma once

#include "cut_problem.hpp"

namespace ligament {

struct CutStart {
    std::vector<std::uint8_t> is_chosen;  ///< by item
    std::uint64_t weight = 0;
    std::uint64_t at_least = 0;  ///< no answer weighs less
    std::vector<Items> cycles;   ///< the items of cycles that were met, at most `cycles_kept`
    bool is_answer = true;       ///< false only where a cycle has no items at all
};

inline constexpr std::size_t cycles_kept = 2'000;

/// Local ratio (Bar-Yehuda and Even, Annals of Discrete Mathematics 25, 1985; for feedback sets Demetrescu and Finocchi, Inf.
/// Process. Lett. 86, 2003): the lightest weight that a short cycle has left is paid by all of its items, and those that have
/// nothing left are chosen. What is paid is a lower bound, whichever cycles were taken. Where the budget ends before all cycles
/// are gone, what is left is ordered by Eades, Lin and Smyth (Inf. Process. Lett. 47, 1993) and its backward arcs are cut. In the
/// end items that are not needed go, the dearest and latest first, as long as there is budget.
CutStart find_cut_start(const CutProblem& problem, const CutIndex& index, Budget& budget);

/// Takes out of an answer, in the given order, what it does not need.
void drop_needless(const CutProblem& problem, const CutIndex& index, std::span<const std::uint32_t> in_order,
                   std::vector<std::uint8_t>& is_chosen, Budget& budget);

std::uint64_t weight_of(const CutProblem& problem, const std::vector<std::uint8_t>& is_chosen);

}  // namespace ligament
