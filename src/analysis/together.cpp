#include "together.hpp"

#include <algorithm>

#include "motion.hpp"

namespace ligament {

TogetherSearch::TogetherSearch(const Rig& rig, const Dependencies& dependencies, const std::vector<Switch>& switches)
    : rig_(rig),
      dependencies_(dependencies),
      switches_(switches),
      switches_of_(dependencies.constraints.size()),
      evaluator_(rig, dependencies) {
    for (std::uint32_t s = 0; s < switches.size(); ++s)
        for (ConstraintId id : switches[s].constraints) switches_of_[id].push_back(s);
}

bool TogetherSearch::are_on(std::span<const Gate> gates) const {
    return std::none_of(gates.begin(), gates.end(),
                        [&](const Gate& gate) { return is_off(rig_, dependencies_, gate, evaluator_.evaluation()); });
}

bool TogetherSearch::is_together(std::span<const Gate> gates) {
    if (are_on(gates)) return true;
    std::vector<std::uint32_t> reaching;
    for (const Gate& gate : gates)
        if (gate.constraint != none)
            reaching.insert(reaching.end(), switches_of_[gate.constraint].begin(), switches_of_[gate.constraint].end());
    std::sort(reaching.begin(), reaching.end());
    reaching.erase(std::unique(reaching.begin(), reaching.end()), reaching.end());
    std::size_t combinations = 1;
    for (std::uint32_t s : reaching) {
        combinations *= switches_[s].stops.size() + 1;
        if (combinations > combination_limit) return true;
    }
    for (std::size_t combination = 1; combination < combinations; ++combination) {
        std::vector<StateEvaluator::Change> changes;
        std::size_t rest = combination;
        for (std::uint32_t s : reaching) {  // digit 0 is the default
            const std::vector<Stop>& stops = switches_[s].stops;
            if (const std::size_t digit = rest % (stops.size() + 1); digit > 0)
                changes.push_back({switches_[s].property, stops[digit - 1].value});
            rest /= stops.size() + 1;
        }
        evaluator_.set(changes);
        const bool is_on = are_on(gates);
        evaluator_.reset();
        if (is_on) return true;
    }
    return false;
}

}  // namespace ligament
