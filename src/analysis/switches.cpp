#include "ligament/switches.hpp"

#include "fan_out.hpp"
#include "number.hpp"

namespace ligament {

namespace {

std::vector<Stop> stops_of(const Property& property) {
    std::vector<Stop> stops;
    for (const auto& [name, value] : property.stops) stops.push_back({name, value});
    if (!stops.empty()) return stops;
    for (double value : {property.min.value_or(0.0), property.max.value_or(1.0)}) stops.push_back({number_text(value), value});
    return stops;
}

}  // namespace

std::vector<Switch> find_switches(const Rig& rig, const Dependencies& dependencies) {
    std::vector<Switch> switches;
    for (FanOut& fan_out : find_driven_targets(rig, dependencies)) {
        const Property& property = rig.properties[fan_out.property];
        if (property.is_driven() || fan_out.constraints.empty()) continue;
        switches.push_back({fan_out.property, stops_of(property), std::move(fan_out.constraints)});
    }
    return switches;
}

std::string name_of(const Rig& rig, const std::vector<Switch>& switches, Setting setting) {
    const Switch& setting_of = switches[setting.switch_index];
    if (setting.stop == none) return setting_name(rig, setting_of.property, rig.properties[setting_of.property].initial);
    return rig.properties[setting_of.property].name + "=" + setting_of.stops[setting.stop].name;
}

std::string name_of(const Rig& rig, const std::vector<Switch>& switches, const Settings& settings) {
    if (settings.empty()) return "default";
    std::string name;
    for (Setting setting : settings) name += (name.empty() ? "" : " + ") + name_of(rig, switches, setting);
    return name;
}

State state_of(const Rig& rig, const std::vector<Switch>& switches, const Settings& settings) {
    State state = default_state(rig);
    for (Setting setting : settings) {
        if (setting.stop == none) continue;
        const Switch& setting_of = switches[setting.switch_index];
        state.properties[setting_of.property] = setting_of.stops[setting.stop].value;
    }
    return state;
}

}  // namespace ligament
