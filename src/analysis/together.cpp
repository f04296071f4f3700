#include "together.hpp"

#include <algorithm>
#include <map>

#include "motion.hpp"
#include "state_evaluator.hpp"

namespace ligament {

namespace {

using Indices = std::vector<std::uint32_t>;

struct Together {
    const Rig& rig;
    const Dependencies& dependencies;
    const std::vector<Switch>& switches;
    std::span<const std::vector<Gate>> sets;
    StateEvaluator evaluator;
    std::vector<bool> is_together;

    bool are_on(const std::vector<Gate>& gates) const {
        return std::none_of(gates.begin(), gates.end(),
                            [&](const Gate& gate) { return is_off(rig, dependencies, gate, evaluator.evaluation()); });
    }

    void look_at(const Indices& waiting) {
        for (std::uint32_t set : waiting)
            if (!is_together[set] && are_on(sets[set])) is_together[set] = true;
    }

    /// How many combinations of stops there are, the default of each switch included; 0 where there are too many.
    std::size_t count(const Indices& reaching) const {
        std::size_t combinations = 1;
        for (std::uint32_t s : reaching) {
            combinations *= switches[s].stops.size() + 1;
            if (combinations > together_limit) return 0;
        }
        return combinations;
    }

    void set(const Indices& reaching, std::size_t combination) {
        std::vector<StateEvaluator::Change> changes;
        for (std::uint32_t s : reaching) {  // one digit a switch, 0 is its default
            const std::vector<Stop>& stops = switches[s].stops;
            if (const std::size_t digit = combination % (stops.size() + 1); digit > 0)
                changes.push_back({switches[s].property, stops[digit - 1].value});
            combination /= stops.size() + 1;
        }
        evaluator.set(changes);
    }
};

/// By the switches that reach them, the sets in `waiting`.
std::map<Indices, Indices> group_by_switches(const std::vector<Switch>& switches, std::span<const std::vector<Gate>> sets,
                                             std::size_t constraints, const std::vector<bool>& is_together) {
    std::vector<Indices> switches_of(constraints);
    for (std::uint32_t s = 0; s < switches.size(); ++s)
        for (ConstraintId id : switches[s].constraints) switches_of[id].push_back(s);
    std::map<Indices, Indices> groups;
    for (std::uint32_t set = 0; set < sets.size(); ++set) {
        if (is_together[set]) continue;
        Indices reaching;
        for (const Gate& gate : sets[set])
            if (gate.constraint != none)
                reaching.insert(reaching.end(), switches_of[gate.constraint].begin(), switches_of[gate.constraint].end());
        std::sort(reaching.begin(), reaching.end());
        reaching.erase(std::unique(reaching.begin(), reaching.end()), reaching.end());
        groups[reaching].push_back(set);
    }
    return groups;
}

}  // namespace

std::vector<bool> find_together(const Rig& rig, const Dependencies& dependencies, const std::vector<Switch>& switches,
                                std::span<const std::vector<Gate>> sets) {
    if (sets.empty()) return {};
    Together together{
        rig, dependencies, switches, sets, StateEvaluator(rig, dependencies), std::vector<bool>(sets.size(), false)};
    for (std::size_t set = 0; set < sets.size(); ++set) together.is_together[set] = together.are_on(sets[set]);
    std::size_t left = together_limit_of_rig;
    for (const auto& [reaching, waiting] :
         group_by_switches(switches, sets, dependencies.constraints.size(), together.is_together)) {
        const std::size_t combinations = together.count(reaching);
        if (combinations == 0 || combinations > left) {
            for (std::uint32_t set : waiting) together.is_together[set] = true;
            continue;
        }
        left -= combinations;
        for (std::size_t combination = 1; combination < combinations; ++combination) {
            together.set(reaching, combination);
            together.look_at(waiting);
            together.evaluator.reset();
        }
    }
    return together.is_together;
}

}  // namespace ligament
