// Which switches have a say in whether a deform bone is attached, and which of them meet there?
#pragma once

#include <cstdint>
#include <vector>

#include "ligament/switches.hpp"
#include "sweep.hpp"

namespace ligament {

/// By place among the deform bones in file order: the switches that touch the bone, ascending. A switch touches a bone when
/// motion can arrive there over a constraint that the switch gates; weights of 0 and overriding do not count here, since they
/// change from state to state. `needed_by` and `order` are of all edges that are not inert (motion graph). Most switches touch
/// one limb, so that a search each is cheap; where the searches together have looked at the whole rig a few times, the rest go
/// side by side.
std::vector<std::vector<std::uint32_t>> find_touching(const Rig& rig, const Dependencies& dependencies, const Rows& needed_by,
                                                      const Sweep& order, const std::vector<Switch>& switches);

/// Of the sets of switches that touch one bone, those of two or more that are not inside another, sorted; combinations counted,
/// none looked at.
std::vector<InteractingSet> find_interacting_sets(const Rig& rig, const std::vector<Switch>& switches,
                                                  const std::vector<std::vector<std::uint32_t>>& touching);

/// Combinations of a set, those with the fewest switches off their default first, then in file order of switches and stops.
/// Gives settings until all are given or `use` returns false.
class Combinations {
  public:
    Combinations(const Rig& rig, const std::vector<Switch>& switches, const InteractingSet& set);

    /// The next combination; empty when there is none left.
    const Settings& next();

  private:
    bool choose_next();

    std::vector<std::vector<Setting>> off_default_;  ///< by switch of the set that has any: its settings off the default
    std::vector<std::size_t> chosen_, stop_;         ///< indices into off_default_, and into each of these
    Settings settings_;
};

}  // namespace ligament
