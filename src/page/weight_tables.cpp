#include "weight_tables.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "ligament/page.hpp"
#include "motion.hpp"
#include "state_evaluator.hpp"

namespace ligament {

namespace {

/// So many combinations of all constraints together are worked out.
constexpr std::size_t rows_limit_of_rig = 200'000;

using Choice = std::vector<std::uint32_t>;  ///< by place among some switches: the option

bool has_driven_weight(const Constraint& constraint) {
    return constraint.weight.is_driven() || std::any_of(constraint.sources.begin(), constraint.sources.end(),
                                                        [](const Source& source) { return source.weight.is_driven(); });
}

struct Tabulator {
    const Rig& rig;
    const Dependencies& dependencies;
    std::span<const SwitchChoice> choices;
    StateEvaluator evaluator;
    std::vector<StateEvaluator::Change> base;  ///< what the state at hand changes in the default one
    std::vector<WeightTable> tables;
    std::size_t rows_left = rows_limit_of_rig;

    /// Every combination, or the base and then each option of each switch.
    std::vector<Choice> combinations(const std::vector<std::uint32_t>& switches, bool is_whole) const {
        Choice at_base;
        for (std::uint32_t s : switches) at_base.push_back(choices[s].base);
        std::vector<Choice> all{at_base};
        if (!is_whole) {
            for (std::size_t place = 0; place < switches.size(); ++place)
                for (std::uint32_t option = 0; option < choices[switches[place]].options.size(); ++option) {
                    all.push_back(at_base);
                    all.back()[place] = option;
                }
            return all;
        }
        all = {Choice{}};
        for (std::uint32_t s : switches) {
            std::vector<Choice> longer;
            for (const Choice& choice : all)
                for (std::uint32_t option = 0; option < choices[s].options.size(); ++option) {
                    longer.push_back(choice);
                    longer.back().push_back(option);
                }
            all = std::move(longer);
        }
        return all;
    }

    WeightRow row_at_hand(ConstraintId id) const {
        const Constraint& constraint = constraint_of(rig, dependencies, id);
        const Evaluation& evaluation = evaluator.evaluation();
        WeightRow row;
        row.weights.push_back(weight_in(evaluation, constraint.weight));
        for (const Source& source : constraint.sources) row.weights.push_back(weight_in(evaluation, source.weight));
        row.replaced = replaced_by(rig, dependencies, id, evaluation);
        return row;
    }

    void tabulate(const std::vector<std::uint32_t>& switches, const std::vector<ConstraintId>& constraints) {
        std::size_t count = 1;
        for (std::uint32_t s : switches) count = std::min(count * choices[s].options.size(), weight_rows_limit + 1);
        const bool is_whole = count <= weight_rows_limit && count * constraints.size() <= rows_left;
        if (is_whole) rows_left -= count * constraints.size();
        const std::size_t first = tables.size();
        for (ConstraintId id : constraints) tables.push_back({id, switches, is_whole, {}, {}});
        for (const Choice& choice : combinations(switches, is_whole)) {
            std::vector<StateEvaluator::Change> changes = base;
            for (std::size_t place = 0; place < switches.size(); ++place) {
                const SwitchChoice& set = choices[switches[place]];
                changes.push_back({set.property, set.options[choice[place]].value});
            }
            evaluator.set(changes);
            for (std::size_t t = first; t < tables.size(); ++t) note(tables[t], row_at_hand(tables[t].constraint));
            evaluator.reset();
        }
    }

    static void note(WeightTable& table, WeightRow row) {
        const auto known = std::find(table.rows.begin(), table.rows.end(), row);
        table.row_of.push_back(static_cast<std::uint32_t>(known - table.rows.begin()));
        if (known == table.rows.end()) table.rows.push_back(std::move(row));
    }
};

}  // namespace

bool WeightRow::operator==(const WeightRow& other) const {
    auto is_same = [](double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); };
    return replaced == other.replaced &&
           std::equal(weights.begin(), weights.end(), other.weights.begin(), other.weights.end(), is_same);
}

std::vector<SwitchChoice> find_choices(const Rig& rig, std::span<const Switch> switches, const State& state) {
    std::vector<SwitchChoice> choices;
    for (const Switch& of : switches) {
        SwitchChoice choice{of.property, of.stops, 0};
        const double value = state.properties[of.property];
        const auto at =
            std::find_if(choice.options.begin(), choice.options.end(), [&](const Stop& stop) { return stop.value == value; });
        choice.base = static_cast<std::uint32_t>(at - choice.options.begin());
        if (at == choice.options.end()) {
            const std::string name = setting_name(rig, of.property, value);
            choice.options.push_back({name.substr(rig.properties[of.property].name.size() + 1), value});
        }
        choices.push_back(std::move(choice));
    }
    return choices;
}

std::vector<WeightTable> find_weight_tables(const Rig& rig, const Dependencies& dependencies, std::span<const Switch> switches,
                                            std::span<const SwitchChoice> choices, const State& state) {
    std::vector<std::vector<std::uint32_t>> switches_of(dependencies.constraints.size());
    for (std::uint32_t s = 0; s < switches.size(); ++s)
        for (ConstraintId id : switches[s].constraints) switches_of[id].push_back(s);
    std::map<std::vector<std::uint32_t>, std::vector<ConstraintId>> with_switches;
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id)
        if (has_driven_weight(constraint_of(rig, dependencies, id))) with_switches[switches_of[id]].push_back(id);
    Tabulator tabulator{rig, dependencies, choices, StateEvaluator(rig, dependencies), {}, {}};
    for (PropertyId p = 0; p < rig.properties.size(); ++p)
        if (!rig.properties[p].is_driven() && state.properties[p] != rig.properties[p].initial)
            tabulator.base.push_back({p, state.properties[p]});
    for (const auto& [set, constraints] : with_switches) tabulator.tabulate(set, constraints);
    std::sort(tabulator.tables.begin(), tabulator.tables.end(),
              [](const WeightTable& a, const WeightTable& b) { return a.constraint < b.constraint; });
    return std::move(tabulator.tables);
}

}  // namespace ligament
