// What surrounds each element of a rig, by which it can be known again under another name?
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "ligament/graph.hpp"

namespace ligament {

/// Something that is so about an element: by itself, or towards another one. Equal relations mean the same in both revisions.
struct Trait {
    std::uint64_t relation = 0;
    std::uint32_t node = none;  ///< the other element; none where the relation says it all
    float weight = 1;
    bool speaks_for_alone = false;  ///< shared it counts; that one has it and the other has not says nothing
};

/// Elements of all sorts in one numbering: bones, properties, objects, groups, each in file order.
struct Surroundings {
    enum class Sort : std::uint8_t { bone, property, object, group };
    std::uint32_t bones = 0, properties = 0, objects = 0, groups = 0;
    std::vector<std::vector<Trait>> traits;  ///< by node
    std::vector<std::string_view> names;     ///< by node; views into the rig

    std::uint32_t size() const { return bones + properties + objects + groups; }
    std::uint32_t property(PropertyId id) const { return bones + id; }
    std::uint32_t object(ObjectId id) const { return bones + properties + id; }
    std::uint32_t first_group() const { return bones + properties + objects; }
    Sort sort_of(std::uint32_t node) const {
        return node < bones ? Sort::bone : node < object(0) ? Sort::property : node < first_group() ? Sort::object : Sort::group;
    }
};

/// Linear in the rig. The rig must outlive it.
Surroundings find_surroundings(const Rig& rig);

/// Both mixed into one, the order counting. The same on every machine.
std::uint64_t mixed(std::uint64_t first, std::uint64_t second);
std::uint64_t mixed(std::string_view text);
std::uint64_t mixed(double number);

}  // namespace ligament
