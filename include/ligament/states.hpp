// What do driven values come to? Settings of the properties, and what is dead in them.
#pragma once

#include <string>
#include <vector>

#include "ligament/graph.hpp"

namespace ligament {

/// One setting of all undriven properties.
struct State {
    std::vector<double> properties;  ///< by property id; what stands for a driven property is not read
};

/// Every undriven property at its default.
State default_state(const Rig& rig);

/// "wing_mode_l=fk": a property at a value, by the first of its stops that has it, else as the shortest number ("0", "0.5").
std::string setting_name(const Rig& rig, PropertyId property, double value);

/// What driven values come to in a state. NaN = unknown (read from bones, a loop of properties, not finite).
struct Evaluation {
    std::vector<double> drivers;     ///< by driver id, not clamped
    std::vector<double> properties;  ///< by property id, driven ones clamped to their min and max
};

Evaluation evaluate(const Rig& rig, const Dependencies& dependencies, const State& state);

/// A weight in a state, clamped to 0..1 and snapped to 0 and 1 within 1e-9; NaN when unknown.
double weight_in(const Evaluation& evaluation, const Value& value);

/// The same dependencies as they are in a state: what a weight of 0 gates is switched off (Gate::off). With `overrides` so are
/// constraints of which nothing is left in the end, and the earlier value of what a step with weight 1 replaces wholly; a host
/// still computes these, so cycles and order keep them. Linear.
Dependencies dependencies_in(const Rig& rig, const Dependencies& dependencies, const State& state, bool overrides);

}  // namespace ligament
