// `ligament fan-out`: what do properties reach?
#include <algorithm>
#include <memory>
#include <sstream>

#include "commands.hpp"
#include "input.hpp"
#include "ligament/facts.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "table.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_fan_out(CLI::App& app);

namespace {

struct Options {
    std::string rig, property, colour = "auto";
    std::vector<std::string> state;
    InputOptions input;
};

using Rows = std::vector<std::vector<std::string>>;

std::string on_text(const Rig& rig, const Property& property) {
    return property.on == none ? "-" : printable(rig.bones[property.on].name);
}

void write_overview(std::ostream& out, const Rig& rig, const std::vector<FanOut>& fan_outs) {
    if (fan_outs.empty()) {
        out << "the rig has no properties\n";
        return;
    }
    Rows rows{{"property", "on", "weights", "channels", "properties", "constraints", "bones moved"}};
    for (const FanOut& fan_out : fan_outs) {
        const Property& property = rig.properties[fan_out.property];
        rows.push_back({printable(property.name), on_text(rig, property), std::to_string(fan_out.weights.size()),
                        std::to_string(fan_out.channels.size()), std::to_string(fan_out.properties.size()),
                        std::to_string(fan_out.constraints.size()), std::to_string(fan_out.bones_moved)});
    }
    write_table(out, rows, 0, "llrrrrr");
}

std::string driver_text(const Rig& rig, const Dependencies& dependencies, DriverId id) {
    const DriverUse& use = dependencies.driver_uses[id];
    switch (use.target) {
        case DriverUse::Target::channel:
            return printable(rig.bones[use.element].name) + "/" + std::string(channel_name(use.index));
        case DriverUse::Target::property:
            return printable(rig.properties[use.element].name);
        case DriverUse::Target::source_weight:
            return printable(constraint_name(rig, dependencies, use.element)) + " source " + std::to_string(use.index + 1);
        case DriverUse::Target::weight:
            return printable(constraint_name(rig, dependencies, use.element));
        case DriverUse::Target::nothing:
            break;
    }
    return {};
}

template <class Ids, class RowOf>
void write_list(std::ostream& out, const std::string& title, const Ids& ids, const TextStyle& style, RowOf row_of) {
    out << heading(title + " (" + std::to_string(ids.size()) + ")", style) << '\n';
    Rows rows;
    for (const auto id : ids) rows.push_back(row_of(id));
    write_table(out, rows, 2);
}

std::string property_text(const Rig& rig, const Property& property) {
    std::ostringstream text;
    text << "property " << printable(property.name);
    if (property.on != none) text << " on " << on_text(rig, property);
    text << ": " << (property.is_driven() ? "driven" : "default ");
    if (!property.is_driven()) text << property.initial;
    if (property.min) text << ", min " << *property.min;
    if (property.max) text << ", max " << *property.max;
    for (std::size_t i = 0; i < property.stops.size(); ++i)
        text << (i == 0 ? "; stops " : ", ") << printable(property.stops[i].first) << " = " << property.stops[i].second;
    return text.str();
}

void write_details(std::ostream& out, const Options& options, const Rig& rig, const Dependencies& dependencies,
                   const FanOut& fan_out, const TextStyle& style) {
    auto place = [&](Place at) { return place_text(options.rig, at); };
    auto driver_row = [&](DriverId id) {
        return std::vector<std::string>{driver_text(rig, dependencies, id), place(rig.drivers[id].place)};
    };
    out << property_text(rig, rig.properties[fan_out.property]) << '\n';
    write_list(out, "weights", fan_out.weights, style, driver_row);
    write_list(out, "channels", fan_out.channels, style, driver_row);
    write_list(out, "properties", fan_out.properties, style, [&](PropertyId id) {
        return std::vector<std::string>{printable(rig.properties[id].name), place(rig.properties[id].place)};
    });
    write_list(out, "constraints", fan_out.constraints, style, [&](ConstraintId id) {
        return std::vector<std::string>{printable(constraint_name(rig, dependencies, id)),
                                        place(constraint_of(rig, dependencies, id).place)};
    });
    write_list(out, "bones moved", find_bones_moved(rig, dependencies, fan_out.property), style, [&](BoneId id) {
        return std::vector<std::string>{printable(rig.bones[id].name), std::string(role_of(rig.bones[id])),
                                        place(rig.bones[id].place)};
    });
}

int show_fan_out(const Options& options) {
    const Rig rig = load_rig(options.rig, options.input).rig;
    const FactOptions fact_options = read_state(rig, options.rig, options.state);
    const Dependencies dependencies = dependencies_for(rig, fact_options, /*overrides=*/true);
    const PropertyId wanted = options.property.empty() ? none : property_named(rig, options.rig, options.property);
    const std::vector<FanOut> fan_outs = find_fan_out(rig, dependencies);
    Output output;
    if (fact_options.state) output.stream() << "bones moved are those" << in_state_words(fact_options) << '\n';
    if (wanted == none)
        write_overview(output.stream(), rig, fan_outs);
    else
        write_details(output.stream(), options, rig, dependencies, fan_outs[wanted], style_for(output, options.colour));
    output.commit();
    return fine;
}

}  // namespace

Run add_fan_out(CLI::App& app) {
    auto options = std::make_shared<Options>();
    add_rig(app, options->rig, options->input);
    app.add_option("PROPERTY", options->property, "list all that this property reaches")->type_name("");
    add_state_option(app, options->state);
    add_colour_option(app, options->colour);
    app.footer(
        "Through drivers and driven properties, not through bones; targets inside inert constraints are left out.\n\n"
        "Examples:\n  ligament fan-out heron.rig.json\n  ligament fan-out heron.rig.json wing_mode_l");
    return [options] { return show_fan_out(*options); };
}

}  // namespace ligament::cli
