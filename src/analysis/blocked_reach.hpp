// What is still reached when one of many candidates is taken out? Sets of candidates that travel side by side.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "marks.hpp"

namespace ligament {

/// Ways, vertices where they start, and candidates to take out with all their vertices. With every vertex a candidate of its own
/// and one start, the candidates that cut a vertex off are its dominators.
class BlockedReach {
  public:
    /// `rows` and `order`, a sweep of them, must outlive this. `candidates` are rows by candidate: its vertices, none of which is
    /// another one's.
    BlockedReach(const Rows& rows, const Sweep& order, std::span<const std::uint32_t> starts, Rows candidates);

    std::size_t candidates() const { return candidates_.size(); }

    /// Looks at up to MarkSet::capacity candidates from `first` on, and at the vertices that they lead to.
    void look_at(std::size_t first, std::size_t count);

    bool is_reached(std::uint32_t v) const { return is_reached_[v] != 0; }
    /// Whether a candidate that is looked at leads to v or v is its own. Where none does, none can cut v off.
    bool is_touched(std::uint32_t v) const { return slot_[v] != none; }
    /// Those of the candidates looked at, numbered from the first, one of whose starts leads to v.
    MarkSet reaching(std::uint32_t v) const { return is_touched(v) ? reaching_[slot_[v]] : MarkSet{}; }
    /// Those of them without which some start still leads to v.
    MarkSet avoidable(std::uint32_t v) const;

  private:
    void touch_from(std::size_t first, std::size_t count);
    void spread(std::span<const std::uint32_t> group);
    void let_grow(std::span<const std::uint32_t> group);
    bool is_own(std::uint32_t v) const { return candidate_of_[v] != none && candidate_of_[v] - first_ < count_; }

    const Rows& rows_;
    const Sweep& order_;
    Rows candidates_, forward_;
    std::vector<std::uint8_t> is_start_, is_reached_;
    std::vector<std::uint32_t> candidate_of_, group_of_;  ///< by vertex
    std::vector<std::uint32_t> slot_;                     ///< by vertex: its place in what follows, or none
    std::vector<std::uint32_t> touched_;
    std::vector<MarkSet> reaching_, avoidable_;
    std::vector<std::uint8_t> is_going_;  ///< waits in let_grow
    MarkSet all_;
    std::uint32_t first_ = 0, count_ = 0;
};

}  // namespace ligament
