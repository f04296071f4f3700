// Are several weights ever on at once?
#pragma once

#include <span>
#include <vector>

#include "ligament/switches.hpp"
#include "state_evaluator.hpp"

namespace ligament {

/// Looks for a state in which none of several weights is 0.
class TogetherSearch {
  public:
    /// `switches` as find_switches gives them. All must outlive the search.
    TogetherSearch(const Rig& rig, const Dependencies& dependencies, const std::vector<Switch>& switches);

    /// Of so many combinations all are looked at.
    static constexpr std::size_t combination_limit = 256;

    /// Whether the gates are all on in the default state, or in some combination of stops of the switches that reach them.
    /// Weights driven by bones count as on. Where there are more combinations than the limit, true. No gates: true.
    bool is_together(std::span<const Gate> gates);

  private:
    bool are_on(std::span<const Gate> gates) const;

    const Rig& rig_;
    const Dependencies& dependencies_;
    const std::vector<Switch>& switches_;
    std::vector<std::vector<std::uint32_t>> switches_of_;  ///< by constraint
    StateEvaluator evaluator_;
};

}  // namespace ligament
