// Which properties have values that they cannot take?
#include "number.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

/// "above its max 1", or nothing where the value lies inside.
std::string outside(const Property& property, double value) {
    if (property.min && value < *property.min) return "below its min " + number_text(*property.min);
    if (property.max && value > *property.max) return "above its max " + number_text(*property.max);
    return {};
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (PropertyId id = 0; id < checked.rig.properties.size(); ++id) {
        const Property& property = checked.rig.properties[id];
        const auto look_at = [&](double value, const std::string& named, const std::string& maker) {
            const std::string where = outside(property, value);
            if (where.empty()) return;
            Finding& finding = findings.emplace_back(finding_about_property(self, checked.rig, id));
            finding.maker = maker;
            finding.message = named + " of property " + quoted(property.name) + " is " + number_text(value) + ", " + where;
            finding.hint = "move the value inside, or widen the range";
        };
        if (!property.is_driven()) look_at(property.initial, "the default", "default");
        for (const auto& [stop, value] : property.stops) look_at(value, "stop " + quoted(stop), "stop " + stop);
    }
}

}  // namespace

extern constinit const Check property_range{
    .name = "property-range",
    .severity = Severity::warning,
    .summary = "a default or stop outside min and max",
    .what =
        "The default or a stop of a property lies below its min or above its max. A default that is left out is 0. The default "
        "of "
        "a driven property is never taken and does not count.",
    .harm =
        "The rig begins in a state that nobody can set again once the slider was touched, or a switch has a stop that cannot be "
        "reached.",
    .mend = "Move the value inside, or widen the range.",
    .find = find,
};

}  // namespace ligament::checks
