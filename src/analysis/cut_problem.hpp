// Which items must be chosen so that no cycle is left? The question of the cheapest cut, apart from rigs.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace ligament {

/// Numbers of items, ascending, each once.
using Items = std::vector<std::uint32_t>;

/// An arc that is gone as soon as one of its items is chosen; of an arc without items nothing takes it away.
struct CutArc {
    std::uint32_t from = 0, to = 0;
    Items items;
};

/// Choose items of the lowest total weight so that the arcs that are left close no cycle and each set holds a chosen item. Arcs
/// may share items. Of answers of equal weight the one whose ascending numbers come first is wanted.
struct CutProblem {
    std::uint32_t vertices = 0;
    std::vector<CutArc> arcs;
    std::vector<Items> sets;
    std::vector<std::uint64_t> weights;  ///< by item, at least 1
};

struct CutAnswer {
    Items items;
    std::uint64_t weight = 0;
    std::uint64_t at_least = 0;  ///< no answer weighs less: proven; equal to `weight` where `is_exact`
    bool is_exact = true;
    bool is_first = true;  ///< of the answers of that weight it is the wanted one
};

/// Work that a search may still do, counted in steps of a nanosecond or less, never by a clock, so that the same problem always
/// gives the same answer.
struct Budget {
    std::uint64_t left = 0;

    bool spend(std::uint64_t steps) {
        left = left > steps ? left - steps : 0;
        return left > 0;
    }
    bool is_spent() const { return left == 0; }
};

/// Compressed lists of numbers: of i the numbers [first[i], first[i + 1]).
struct Lists {
    std::vector<std::uint32_t> first{0};
    std::vector<std::uint32_t> numbers;

    std::span<const std::uint32_t> of(std::uint32_t i) const {
        return {numbers.data() + first[i], numbers.data() + first[i + 1]};
    }
};

/// Where things stand in a problem.
struct CutIndex {
    Lists arcs_from, arcs_to;    ///< by vertex
    Lists arcs_with, sets_with;  ///< by item
};

CutIndex index_of(const CutProblem& problem);

/// a and b together.
Items united(const Items& a, const Items& b);

bool is_part_of(const Items& part, const Items& whole);

bool shares_item(const Items& items, const std::vector<std::uint8_t>& is_chosen);

/// Whether the choice answers the problem. Linear.
bool is_answer(const CutProblem& problem, const std::vector<std::uint8_t>& is_chosen);

}  // namespace ligament
