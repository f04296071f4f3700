// Which of the numbers put in is the lowest? A set of numbers with room for a known range.
#pragma once

#include <bit>
#include <cstdint>
#include <vector>

namespace ligament {

/// Numbers below `size`, as bits with a bit for every 64 of them above, and so
/// on: putting one in and taking the lowest out cost a step for each factor of
/// 64, four for a million, where a heap of what a file of limbs makes ready all at once costs twenty steps far apart.
class LowestFirst {
  public:
    explicit LowestFirst(std::uint32_t size) {
        do {
            size = size / 64 + 1;
            levels_.emplace_back(size, 0);
        } while (size > 1);
    }

    bool empty() const { return levels_.back().front() == 0; }

    void insert(std::uint32_t number) {
        for (std::vector<std::uint64_t>& level : levels_) {
            std::uint64_t& word = level[number / 64];
            const bool was_empty = word == 0;
            word |= std::uint64_t{1} << number % 64;
            if (!was_empty) return;
            number /= 64;
        }
    }

    /// Not of an empty set.
    std::uint32_t take_lowest() {
        std::uint32_t number = 0;
        for (std::size_t level = levels_.size(); level-- > 0;)
            number = number * 64 + static_cast<std::uint32_t>(std::countr_zero(levels_[level][number]));
        std::uint32_t rest = number;
        for (std::vector<std::uint64_t>& level : levels_) {
            std::uint64_t& word = level[rest / 64];
            word &= word - 1;
            if (word != 0) break;
            rest /= 64;
        }
        return number;
    }

  private:
    std::vector<std::vector<std::uint64_t>> levels_;  ///< by 64, by 64 * 64, and so on; the last is one word
};

}  // namespace ligament
