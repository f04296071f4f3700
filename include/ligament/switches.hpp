// What changes when a switch is set? Every stop of every switch, and the combinations in which switches meet.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "ligament/attachment.hpp"
#include "ligament/cycles.hpp"

namespace ligament {

/// A named value of a switch. Without names, the value as a number: "0", "0.5".
struct Stop {
    std::string name;
    double value = 0.0;
};

/// An undriven property that reaches the weight of a constraint that is not inert, or of one of its sources, through drivers and
/// driven properties.
struct Switch {
    PropertyId property = none;
    std::vector<Stop> stops;                ///< the named ones, else min and max, 0 and 1 where these are not given
    std::vector<ConstraintId> constraints;  ///< those whose weight or source's weight it reaches, in file order
};

/// All switches, in file order.
std::vector<Switch> find_switches(const Rig& rig, const Dependencies& dependencies);

/// One switch at one of its stops.
struct Setting {
    std::uint32_t switch_index = 0;  ///< index into the list of switches
    std::uint32_t stop = 0;          ///< index into Switch::stops; none: at its default, where that is no stop

    friend auto operator<=>(const Setting&, const Setting&) = default;
};

/// Settings of different switches, in file order; all other switches at their default. None: the default state.
using Settings = std::vector<Setting>;

/// "wing_mode_l=fk".
std::string name_of(const Rig& rig, const std::vector<Switch>& switches, Setting setting);

/// "default", "wing_mode_l=fk", "wing_mode_l=fk + neck_space=1".
std::string name_of(const Rig& rig, const std::vector<Switch>& switches, const Settings& settings);

/// The state that settings stand for.
State state_of(const Rig& rig, const std::vector<Switch>& switches, const Settings& settings);

/// A state in which a deform bone is attached less well than in the default state.
struct Worse {
    Settings settings;
    Verdict verdict = Verdict::orphaned;
    bool by_others = false;      ///< moved as in the default state, by root controls alone: what is new is that other bones move
                                 ///< with other controls
    bool blamed_is_off = false;  ///< the weight of the constraint to blame is 0 in the state
    ConstraintId blamed = none;  ///< the constraint that, were it as in the default state, would leave the bone as well attached
                                 ///< as there; nearest to the bone where there are several; none where no single one would
    std::vector<BoneId> right;   ///< bones of one run with the blamed one's, which the switch reaches at the same place, and
                                 ///< which in this state move with the kind of control that the bone has lost
};

/// Two or more switches that touch a common deform bone, and how many of their combinations were looked at. A combination has two
/// or more switches off their default.
struct InteractingSet {
    std::vector<std::uint32_t> switches;  ///< indices into the list of switches
    std::uint64_t combinations = 0;       ///< how many there are, counted up to most_counted
    std::uint64_t looked_at = 0;

    static constexpr std::uint64_t most_counted = 1'000'000'000'000'000;
    bool is_counted() const { return combinations < most_counted; }
};

/// Of each interacting set at most so many combinations are looked at, those with the fewest switches off their default first.
inline constexpr std::uint64_t combination_limit = 256;

/// Of all sets of a rig together at most so many, the same number of each, but of each at least one.
inline constexpr std::uint64_t combination_limit_of_rig = 50'000;

/// A bone that a switch leaves out, although it gates the same place of the same stack on two or more bones of the same run.
struct SwitchGap {
    PropertyId property = none;
    BoneId bone = none;
    ConstraintId constraint = none;  ///< the one on `bone` whose weight the switch does not reach
    std::vector<BoneId> gated;       ///< bones of the run where it does, the first in file order
    std::size_t gated_count = 0;     ///< how many there are

    static constexpr std::size_t most_gated = 12;  ///< of so many the list names all
};

/// What the switches do to a rig.
struct SwitchFacts {
    std::vector<Switch> switches;
    std::vector<InteractingSet> sets;
    std::uint64_t looked_at = 0;                ///< states, the default state included
    std::vector<std::vector<Worse>> worse;      ///< by place in AttachmentFacts::deform: with one switch set
    std::vector<std::vector<Worse>> worse_yet;  ///< likewise, with several set: worse than with any fewer of them
    std::vector<std::vector<Settings>>
        live_in;                     ///< by cycle: the default state and those with one switch set in which it is left
    std::vector<ConstraintId> dead;  ///< inert, or in no state looked at does anything come of them; in file order
    std::vector<bool>
        dead_is_replaced;         ///< by place in `dead`: in some state its weight is not 0, but all that it writes is replaced
    std::vector<SwitchGap> gaps;  ///< by property, then in file order
};

/// Looks at the default state, at each switch at each of its stops, and at the combinations of switches that touch a common
/// deform bone. A state costs what it changes: weights that are driven, and the motion marks that come out different. Where a rig
/// lists no roots, and in some state every deform bone is reached by controls beyond the candidates for roots, that state is
/// found from scratch. `cycles` as find_cycles gives them.
SwitchFacts find_switch_facts(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles);

/// Deform bones of one limb that the same controls move in one state, with the same verdict.
struct StateRow {
    Settings settings;  ///< one switch at one stop; none for bones that are moved alike at every stop of every switch
    Verdict verdict = Verdict::orphaned;
    std::vector<BoneId> bones;     ///< in file order
    std::vector<BoneId> controls;  ///< those beyond StateTable::shared, in file order
};

/// One limb: the deform bones of one group, at each stop of each switch that changes who moves them or how they are attached, and
/// at the switch's default where that is no stop.
struct StateTable {
    std::string group;                          ///< empty for the bones without a group
    std::vector<BoneId> shared;                 ///< the controls that move the bones of every row
    std::vector<StateRow> rows;                 ///< by switch and stop, those without one last; then by first bone
    std::vector<std::uint32_t> without_effect;  ///< the switches that touch bones of the group, but change no row
};

/// One table a group that has deform bones, in the order of their first ones. Costs a state and a search for each deform bone,
/// switch that touches it, and stop.
std::vector<StateTable> find_state_tables(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
