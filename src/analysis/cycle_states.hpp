// In which states is a cycle left? The edges of each cycle at its grain, with the gates that cut them.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "ligament/cycles.hpp"
#include "rows.hpp"

namespace ligament {

/// What a cycle's component looks like at the reported grain.
class CycleStates {
  public:
    /// `cycles` as find_cycles gives them. Linear.
    CycleStates(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles);

    /// How many cycles.
    std::uint32_t size() const { return static_cast<std::uint32_t>(parts_.size()); }

    /// The cycles, ascending, some edge of which is gated by one of these constraints.
    std::vector<std::uint32_t> gated_by(std::span<const ConstraintId> constraints) const;

    /// Whether a cycle is left where these gates (by gate) cut their edges. Linear in the component.
    bool is_left(std::uint32_t cycle, const std::vector<std::uint8_t>& gate_is_off) const;

  private:
    struct Part {
        Rows rows;                         ///< what needs what, numbered by place in the component
        std::vector<std::uint32_t> gates;  ///< by position in rows.needs
    };
    std::vector<Part> parts_;                                    ///< by cycle
    std::vector<std::pair<ConstraintId, std::uint32_t>> gated_;  ///< (constraint, cycle), ascending
};

}  // namespace ligament
