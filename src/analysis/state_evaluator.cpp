#include "state_evaluator.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

namespace ligament {

namespace {

Rows readers_of_properties(const Rig& rig) {
    Rows inputs;
    for (const Driver& driver : rig.drivers) {
        for (const Input& input : driver.inputs)
            if (input.kind == Input::Kind::property) inputs.needs.push_back(input.property);
        inputs.first.push_back(static_cast<std::uint32_t>(inputs.needs.size()));
    }
    return reversed(inputs, static_cast<std::uint32_t>(rig.properties.size()));
}

bool is_same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

}  // namespace

StateEvaluator::StateEvaluator(const Rig& rig, const Dependencies& dependencies)
    : rig_(rig),
      dependencies_(dependencies),
      evaluation_(evaluate(rig, dependencies, default_state(rig))),
      order_(find_property_order(rig)),
      readers_(readers_of_properties(rig)),
      prepared_(rig.drivers.size(), none) {}

StateEvaluator::StateEvaluator(const StateEvaluator& other)
    : rig_(other.rig_),
      dependencies_(other.dependencies_),
      evaluation_(other.evaluation_),
      order_(other.order_),
      readers_(other.readers_),
      prepared_(other.prepared_.size(), none),
      old_drivers_(other.old_drivers_),
      old_properties_(other.old_properties_),
      sets_(other.sets_) {}

void StateEvaluator::evaluate_driver(DriverId id) {
    const Driver& driver = rig_.drivers[id];
    if (prepared_[id] == none) prepared_[id] = expressions_.prepare(driver);
    inputs_.clear();
    for (const Input& input : driver.inputs)
        inputs_.push_back(input.kind == Input::Kind::property ? evaluation_.properties[input.property]
                                                              : std::numeric_limits<double>::quiet_NaN());
    old_drivers_.push_back({id, evaluation_.drivers[id]});
    evaluation_.drivers[id] = expressions_.evaluate(driver, prepared_[id], inputs_);
}

/// Driven properties that read it wait for their turn, in the order of their needs; other drivers until all of these are done.
void StateEvaluator::note_readers(PropertyId property) {
    for (DriverId driver : readers_.of(property)) {
        const DriverUse& use = dependencies_.driver_uses[driver];
        if (use.target != DriverUse::Target::property) {
            touched_.push_back(driver);
        } else if (!order_.is_looping[use.element]) {
            places_.push_back(order_.place_of[use.element]);
            std::push_heap(places_.begin(), places_.end(), std::greater<>());
        }
    }
}

const std::vector<DriverId>& StateEvaluator::set(const std::vector<Change>& changes) {
    touched_.clear();
    sets_.emplace_back(old_drivers_.size(), old_properties_.size());
    const auto assign = [&](PropertyId p, double value) {
        if (is_same(evaluation_.properties[p], value)) return;
        old_properties_.push_back({p, evaluation_.properties[p]});
        evaluation_.properties[p] = value;
        note_readers(p);
    };
    for (const Change& change : changes) assign(change.property, change.value);
    while (!places_.empty()) {
        const std::uint32_t place = places_.front();
        while (!places_.empty() && places_.front() == place) {
            std::pop_heap(places_.begin(), places_.end(), std::greater<>());
            places_.pop_back();
        }
        const PropertyId p = order_.properties[place];
        const DriverId driver = rig_.properties[p].value->driver;
        evaluate_driver(driver);
        assign(p, clamped(rig_.properties[p], evaluation_.drivers[driver]));
    }
    std::sort(touched_.begin(), touched_.end());
    touched_.erase(std::unique(touched_.begin(), touched_.end()), touched_.end());
    for (DriverId driver : touched_) evaluate_driver(driver);
    return touched_;
}

void StateEvaluator::unset() {
    for (; old_drivers_.size() > sets_.back().first; old_drivers_.pop_back())
        evaluation_.drivers[old_drivers_.back().driver] = old_drivers_.back().value;
    for (; old_properties_.size() > sets_.back().second; old_properties_.pop_back())
        evaluation_.properties[old_properties_.back().property] = old_properties_.back().value;
    sets_.pop_back();
}

void StateEvaluator::reset() {
    while (!sets_.empty()) unset();
}

}  // namespace ligament
