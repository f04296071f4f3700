// What do driven values come to in a state? Properties in the order of their needs, then all other drivers.
#include <cmath>
#include <limits>

#include "expression.hpp"
#include "ligament/states.hpp"
#include "number.hpp"
#include "property_order.hpp"

namespace ligament {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

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

std::string setting_name(const Rig& rig, PropertyId property, double value) {
    const std::string name = rig.properties[property].name + "=";
    for (const auto& [stop, at] : rig.properties[property].stops)
        if (at == value) return name + stop;
    return name + number_text(value);
}

Evaluation evaluate(const Rig& rig, const Dependencies& dependencies, const State& state) {
    Evaluator evaluator{rig, {}, {}, {}};
    Evaluation& result = evaluator.result;
    result.drivers.assign(rig.drivers.size(), unknown);
    result.properties = state.properties;
    result.properties.resize(rig.properties.size(), unknown);

    const PropertyOrder order = find_property_order(rig);
    for (PropertyId p : order.properties) {
        const Property& property = rig.properties[p];
        if (!property.is_driven()) continue;
        double& value = result.drivers[property.value->driver];
        if (!order.is_looping[p]) value = evaluator.evaluate_driver(property.value->driver);
        result.properties[p] = clamped(property, value);
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
