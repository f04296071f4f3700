// Who reaches this vertex? One set of controls a vertex, in as little memory as the controls that are told apart allow.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace ligament {

/// A bit for any control, one for a control that is no candidate for root, and one for each candidate.
using Reachers = std::uint64_t;
inline constexpr Reachers any_control = 1;
inline constexpr Reachers other_control = 2;
inline constexpr std::size_t first_candidate_bit = 2, most_candidates = 62;

inline constexpr Reachers candidate_bit(std::size_t candidate) { return Reachers{1} << (first_candidate_bit + candidate); }

/// By vertex, nobody at first. A byte each for up to six candidates: a rig that lists its roots has none, and what all vertices
/// then take stays in the cache, of which eight bytes each would not.
class ReachMarks {
  public:
    ReachMarks(std::size_t vertices, std::size_t candidates) {
        if (first_candidate_bit + candidates <= 8)
            narrow_.resize(vertices, 0);
        else
            wide_.resize(vertices, 0);
    }

    Reachers of(std::uint32_t v) const { return wide_.empty() ? narrow_[v] : wide_[v]; }
    void set(std::uint32_t v, Reachers reachers) {
        if (wide_.empty())
            narrow_[v] = static_cast<std::uint8_t>(reachers);
        else
            wide_[v] = reachers;
    }

  private:
    std::vector<std::uint8_t> narrow_;
    std::vector<Reachers> wide_;
};

}  // namespace ligament
