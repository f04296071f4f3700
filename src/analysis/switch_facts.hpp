// What do the switches do to a rig? Parts of the answer that are found side by side.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "ligament/switches.hpp"
#include "motion.hpp"
#include "state_looks.hpp"

namespace ligament {

/// find_switch_facts in three parts: lay_ground() and set_out(), which may run side by side, then find().
class SwitchSearch {
  public:
    /// How often it may be tried what would be if one constraint were as in the default state, in each half of the states: past
    /// it nobody is blamed.
    static constexpr std::size_t most_trials = 50'000;

    /// All of these must outlive it.
    SwitchSearch(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles, const LiveMotion& live,
                 std::size_t trials = most_trials)
        : rig_(rig), dependencies_(dependencies), cycles_(cycles), live_(live), trials_{trials, trials} {}

    void lay_ground() { ground_.emplace(rig_, dependencies_, cycles_); }
    void set_out() { walk_.emplace(rig_, dependencies_, live_); }

    /// By deform bone, in the default state; after set_out() and before find().
    const std::vector<Verdict>& default_verdicts() const { return walk_->default_verdicts(); }

    /// States are gone through in two halves, side by side if there are two workers. What is found is the same for any number of
    /// them. To be called once.
    SwitchFacts find(unsigned workers);

  private:
    void look_at_single_states(SwitchFacts& facts, unsigned workers);
    void look_at_half_of_singles(std::size_t half);
    void look_at_combinations(SwitchFacts& facts, unsigned workers);
    std::uint64_t look_at_half_of_sets(std::size_t half, std::span<InteractingSet> sets, std::uint64_t limit,
                                       const std::vector<std::vector<Worse>>& worse_alone);
    StateLooks& looks_of(std::size_t half) { return half == 1 && second_ ? *second_ : *first_; }

    const Rig& rig_;
    const Dependencies& dependencies_;
    const std::vector<Cycle>& cycles_;
    const LiveMotion& live_;
    std::optional<SwitchGround> ground_;
    std::optional<StateWalk> walk_;
    std::optional<StateLooks> first_, second_;  ///< without a second one the first goes through both halves
    std::array<std::size_t, 2> trials_;         ///< by half: how many are left
};

}  // namespace ligament
