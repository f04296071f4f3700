// What do the weights of a constraint come to, in each combination of the switches that they hang on?
#pragma once

#include <span>
#include <string>
#include <vector>

#include "ligament/switches.hpp"

namespace ligament {

/// A switch as a reader sets it: its stops, and last the value that it has in the state at hand where that is none of them.
struct SwitchChoice {
    PropertyId property = none;
    std::vector<Stop> options;
    std::uint32_t base = 0;  ///< the option of the state at hand
};

std::vector<SwitchChoice> find_choices(const Rig& rig, std::span<const Switch> switches, const State& state);

struct WeightRow {
    std::vector<double> weights;  ///< the constraint's, then one a source; NaN where unknown
    Parts replaced = 0;           ///< the parts of which the constraint throws the earlier value away

    bool operator==(const WeightRow& other) const;  ///< NaN equals NaN
};

/// One constraint with a driven weight, its own or that of a source.
struct WeightTable {
    ConstraintId constraint = none;
    std::vector<std::uint32_t> switches;  ///< the choices that its weights hang on, ascending
    bool is_whole = true;                 ///< every combination has its row; else only those with one switch off its base
    std::vector<WeightRow> rows;          ///< different ones, in the order in which they come up
    std::vector<std::uint32_t> row_of;    ///< whole: by combination, the last switch turning fastest; else the base, then each
                                          ///< option of each switch
};

/// By constraint, in file order.
std::vector<WeightTable> find_weight_tables(const Rig& rig, const Dependencies& dependencies, std::span<const Switch> switches,
                                            std::span<const SwitchChoice> choices, const State& state);

}  // namespace ligament
