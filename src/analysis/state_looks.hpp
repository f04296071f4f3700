// What is found in the states that one walk goes through?
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "cycle_states.hpp"
#include "ligament/switches.hpp"
#include "runs.hpp"
#include "state_walk.hpp"
#include "working.hpp"

namespace ligament {

/// What looks at states need of a rig beside its motion.
struct SwitchGround {
    const Rig& rig;
    const Dependencies& dependencies;
    std::vector<Switch> switches;
    CycleStates cycle_states;
    Runs runs;
    Rows solvers_on;  ///< by bone: the solvers whose chain it is in

    SwitchGround(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles);
};

/// Walks from state to state and notes what it finds, in the order in which it is told to look. A copy goes on by itself.
class StateLooks {
  public:
    /// The ground, and who needs what, must outlive it.
    StateLooks(const SwitchGround& ground, const Rows& needed_by, StateWalk walk);

    /// What comes of the constraints from `first` to before `end` in the default state.
    void look_at_default(ConstraintId first, ConstraintId end);
    /// One switch at one of its stops.
    void look_at_single(Setting setting);
    /// Several switches, after all states with fewer of them: what is no worse than in one of those is not noted. `worse_alone`:
    /// what was found with one switch set.
    void look_at_combination(const Settings& settings, const std::vector<std::vector<Worse>>& worse_alone);

    bool is_left_by_default(std::uint32_t cycle) const { return left_by_default_[cycle] != 0; }

    std::vector<std::vector<Worse>> worse;       ///< see SwitchFacts::worse
    std::vector<std::vector<Worse>> worse_yet;   ///< see SwitchFacts::worse_yet
    std::vector<std::vector<Settings>> live_in;  ///< see SwitchFacts::live_in, the default state left out
    std::vector<Work> works;                     ///< by constraint: the most that comes of it in a state looked at
    std::size_t trials = 0;  ///< how many times it may still try what would be if one constraint were as in the
                             ///< default state; past it nobody is blamed

  private:
    void set(const Settings& settings);
    void find_working();
    void find_working_on(BoneId bone);
    void note_work(ConstraintId constraint);
    void note_cycles(const Settings& settings);
    template <class IsNews>
    void note_verdicts(const Settings& settings, std::vector<std::vector<Worse>>& list, IsNews is_news);
    std::vector<ConstraintId> find_blamed(const std::vector<StateWalk::Judged>& bones);
    std::vector<BoneId> find_right(ConstraintId blamed, const Settings& settings, Verdict verdict);

    const SwitchGround& ground_;
    StateWalk walk_;
    Settings at_;  ///< the state that the walk is in
    WorkSearch work_;
    std::vector<std::uint8_t> left_by_default_;  ///< by cycle
};

}  // namespace ligament
