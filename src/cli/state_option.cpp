#include "state_option.hpp"

#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <sstream>

#include "input.hpp"
#include "ligament/report.hpp"
#include "status.hpp"

namespace ligament::cli {

namespace {

struct Setting {
    PropertyId property = none;
    double value = 0.0;
};

std::optional<double> number_in(std::string_view text) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
    return value;
}

/// The property whose name stands before one of the equals signs; names may hold some themselves.
PropertyId property_in(const Rig& rig, const std::string& text, std::size_t& equals) {
    for (equals = text.find('='); equals != std::string::npos; equals = text.find('=', equals + 1)) {
        const PropertyId property = find_property(rig, text.substr(0, equals));
        if (property != none) return property;
    }
    return none;
}

std::string unknown_property(const Rig& rig, const std::string& text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos) return "no \"=\" in --state \"" + text + "\": wanted is PROPERTY=STOP or PROPERTY=NUMBER";
    std::vector<std::string_view> known;
    for (const Property& property : rig.properties) known.emplace_back(property.name);
    const std::string name = text.substr(0, equals);
    return "unknown property \"" + name + "\" in --state" + nearest_words(name, known);
}

std::string unknown_stop(const Property& property, const std::string& stop) {
    std::vector<std::string_view> known;
    for (const auto& named : property.stops) known.emplace_back(named.first);
    return "property \"" + property.name + "\" has no stop \"" + stop + "\" and that is no number" + nearest_words(stop, known);
}

std::string outside_range(const Property& property, const std::string& value) {
    std::ostringstream text;
    text << value << " in --state lies outside the range of property \"" << property.name << "\":";
    if (property.min) text << " min " << *property.min;
    if (property.max) text << (property.min ? ", max " : " max ") << *property.max;
    return text.str();
}

/// What is wrong with a setting, or nothing.
std::string read_setting(const Rig& rig, const std::string& text, Setting& setting) {
    std::size_t equals = 0;
    setting.property = property_in(rig, text, equals);
    if (setting.property == none) return unknown_property(rig, text);
    const Property& property = rig.properties[setting.property];
    if (property.is_driven()) return "property \"" + property.name + "\" in --state is driven: set what drives it";
    const std::string stop = text.substr(equals + 1);
    for (const auto& [name, value] : property.stops) {
        if (name != stop) continue;
        setting.value = value;
        return {};
    }
    const std::optional<double> number = number_in(stop);
    if (!number) return unknown_stop(property, stop);
    if ((property.min && *number < *property.min) || (property.max && *number > *property.max))
        return outside_range(property, stop);
    setting.value = *number;
    return {};
}

}  // namespace

void add_state_option(CLI::App& app, std::vector<std::string>& settings) {
    app.add_option("--state", settings,
                   "look at this state instead of the default one: PROPERTY=STOP or PROPERTY=NUMBER; may be repeated")
        ->type_name("SETTING")
        ->allow_extra_args(false);
}

FactOptions read_state(const Rig& rig, const std::string& path, const std::vector<std::string>& settings) {
    FactOptions options;
    if (settings.empty()) return options;
    options.state = default_state(rig);
    std::map<PropertyId, double> values;  // in file order
    std::string faults;
    for (const std::string& text : settings) {
        Setting setting;
        std::string fault = read_setting(rig, text, setting);
        if (fault.empty() && !values.emplace(setting.property, setting.value).second)
            fault = "property \"" + rig.properties[setting.property].name + "\" is set twice by --state";
        if (!fault.empty()) faults += (faults.empty() ? "" : "; ") + fault;
    }
    if (!faults.empty()) throw Unusable(path + ": " + faults);
    options.state_name.clear();
    for (const auto& [property, value] : values) {
        options.state->properties[property] = value;
        options.state_name += (options.state_name.empty() ? "" : " + ") + setting_name(rig, property, value);
    }
    return options;
}

std::string in_state_words(const FactOptions& options) {
    return options.state ? " in state " + printable(options.state_name) : "";
}

Dependencies dependencies_for(const Rig& rig, const FactOptions& options, bool overrides) {
    Dependencies dependencies = build_dependencies(rig);
    if (!options.state) return dependencies;
    return dependencies_in(rig, dependencies, *options.state, overrides);
}

Dependencies dependencies_to_draw(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const State& state) {
    const Dependencies computed = dependencies_in(rig, dependencies, state, /*overrides=*/false);
    std::vector<std::uint8_t> is_in_cycle(rig.bones.size(), 0);
    for (const Cycle& cycle : facts.cycles)
        for (BoneId bone : cycle.bones) is_in_cycle[bone] = 1;
    Dependencies shown = dependencies_in(rig, dependencies, state, /*overrides=*/true);
    for (std::size_t g = 0; g < computed.gates.size(); ++g) {
        const ConstraintId gating = shown.gates[g].constraint;
        if (gating != none && is_in_cycle[shown.constraints[gating].bone]) shown.gates[g].off = computed.gates[g].off;
    }
    return shown;
}

}  // namespace ligament::cli
