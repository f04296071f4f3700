// In which order can driven properties be evaluated, and what do they come to?
#pragma once

#include <vector>

#include "ligament/rig.hpp"
#include "rows.hpp"

namespace ligament {

/// Properties in the order of their needs.
struct PropertyOrder {
    std::vector<PropertyId> properties;    ///< every property once, after all that it reads, loops apart
    std::vector<std::uint32_t> place_of;   ///< by property: its place there
    std::vector<std::uint8_t> is_looping;  ///< by property: it needs itself, so that its value is unknown
};

PropertyOrder find_property_order(const Rig& rig);

/// The value of a driven property, held within its min and max; NaN stays NaN.
double clamped(const Property& property, double value);

}  // namespace ligament
