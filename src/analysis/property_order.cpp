#include "property_order.hpp"

#include <algorithm>
#include <cmath>

#include "components.hpp"

namespace ligament {

namespace {

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

}  // namespace

PropertyOrder find_property_order(const Rig& rig) {
    const Rows rows = property_rows(rig);
    Condensation components = find_components(rows);
    PropertyOrder order;
    order.place_of.resize(rows.size());
    order.is_looping.resize(rows.size(), 0);
    for (std::uint32_t c = 0; c < components.size(); ++c)
        for (PropertyId p : components.of(c)) order.is_looping[p] = has_cycle(rows, components, c) ? 1 : 0;
    order.properties = std::move(components.members);
    for (std::uint32_t i = 0; i < order.properties.size(); ++i) order.place_of[order.properties[i]] = i;
    return order;
}

double clamped(const Property& property, double value) {
    if (std::isnan(value)) return value;
    if (property.min) value = std::max(value, *property.min);
    if (property.max) value = std::min(value, *property.max);
    return value;
}

}  // namespace ligament
