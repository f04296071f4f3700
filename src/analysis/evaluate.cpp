// What do driven values come to in a state? Properties in the order of their needs, then all other drivers.
#include <algorithm>
#include <cmath>
#include <limits>

#include "components.hpp"
#include "expression.hpp"
#include "ligament/facts.hpp"

namespace ligament {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// Which properties each property needs through its driver.
Rows property_rows(const Rig& rig) {
    Rows rows;
    for (const Property& property : rig.properties) {
        if (property.is_driven())
            for (const Input& input : rig.drivers[property.value->driver].inputs)
                if (input.kind == Input::Kind::property) rows.needs.push_back(input.property);
        rows.first.push_back(static_cast<std::uint32_t>(rows.needs.size()));
    }
    return rows;
}

double clamped(const Property& property, double value) {
    if (std::isnan(value)) return value;
    if (property.min) value = std::max(value, *property.min);
    if (property.max) value = std::min(value, *property.max);
    return value;
}

struct Evaluator {
    const Rig& rig;
    ExpressionEvaluator expressions;
    Evaluation result;
    std::vector<double> inputs;

    double evaluate_driver(DriverId id) {
        const Driver& driver = rig.drivers[id];
        inputs.clear();
        for (const Input& input : driver.inputs)
            inputs.push_back(input.kind == Input::Kind::property ? result.properties[input.property] : unknown);
        return expressions.evaluate(driver, expressions.prepare(driver), inputs);
    }
};

}  // namespace

State default_state(const Rig& rig) {
    State state;
    for (const Property& property : rig.properties) state.properties.push_back(property.initial);
    return state;
}

Evaluation evaluate(const Rig& rig, const Dependencies& dependencies, const State& state) {
    Evaluator evaluator{rig, {}, {}, {}};
    Evaluation& result = evaluator.result;
    result.drivers.assign(rig.drivers.size(), unknown);
    result.properties = state.properties;
    result.properties.resize(rig.properties.size(), unknown);

    const Rows rows = property_rows(rig);
    const Condensation order = find_components(rows);
    for (std::uint32_t c = 0; c < order.size(); ++c) {
        const bool looping = has_cycle(rows, order, c);
        for (PropertyId p : order.of(c)) {
            const Property& property = rig.properties[p];
            if (!property.is_driven()) continue;
            double& value = result.drivers[property.value->driver];
            if (!looping) value = evaluator.evaluate_driver(property.value->driver);
            result.properties[p] = clamped(property, value);
        }
    }
    for (DriverId d = 0; d < rig.drivers.size(); ++d)
        if (dependencies.driver_uses[d].target != DriverUse::Target::property) result.drivers[d] = evaluator.evaluate_driver(d);
    return std::move(result);
}

double weight_in(const Evaluation& evaluation, const Value& value) {
    constexpr double snap = 1e-9;
    const double weight = value.is_driven() ? evaluation.drivers[value.driver] : value.number;
    if (std::isnan(weight)) return weight;
    if (weight <= snap) return 0.0;
    return weight >= 1.0 - snap ? 1.0 : weight;
}

}  // namespace ligament
