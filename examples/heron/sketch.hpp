// How is a rig put together bone by bone? A rig in the making, and the few verbs that add to it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "frame.hpp"
#include "ligament/rig.hpp"

namespace heron {

using ligament::BoneId;
using ligament::PropertyId;

enum class Role { control, mechanism, deform };

/// Which half of the bird a part belongs to. Parts are described on the left; the right one is mirrored from it.
struct Side {
    std::string suffix;  ///< "_l", "_r", or nothing for the middle
    bool mirror = false;

    std::string name(std::string_view base) const { return std::string(base) + suffix; }
    Stick place(const Stick& left) const { return mirror ? mirrored(left) : left; }
};

/// A rig in the making. `places` holds the rest place in the world of every bone of it.
struct Sketch {
    ligament::Rig rig;
    std::vector<Stick> places;
    std::string group;  ///< of the bones that are added next
};

BoneId add_bone(Sketch& sketch, std::string name, Role role, BoneId parent, const Stick& place);

/// The deform bone `name`: it stands exactly on the mechanism bone `seat` and takes its whole transform, so that its own axes
/// stay as an engine wants them. `parent` is its parent in the skeleton that goes to the engine.
BoneId add_deform_bone(Sketch& sketch, std::string name, BoneId parent, BoneId seat);

/// An undriven property that goes from `low` to `high` and begins at `low`.
PropertyId add_property(Sketch& sketch, std::string name, BoneId on, double low, double high);

/// A property whose named stops are 0, 1, 2...
PropertyId add_switch(Sketch& sketch, std::string name, BoneId on, const std::vector<std::string>& stops);

ligament::Value number(double value);
ligament::Value expression(Sketch& sketch, std::string text, std::vector<ligament::Input> inputs);
ligament::Value curve(Sketch& sketch, std::vector<std::array<double, 2>> points, ligament::Input input);

ligament::Input read_property(std::string name, PropertyId property);
/// `channel` 0..8: position.x to scale.z, as the bone has it before its parent counts.
ligament::Input read_channel(std::string name, BoneId bone, std::uint8_t channel);
ligament::Input read_distance(std::string name, BoneId bone, BoneId other);

ligament::Source from(BoneId bone, ligament::Value weight = {});

/// Adds a constraint at the end of the bone's stack. The reference holds until the next one is added to that bone.
ligament::Constraint& constrain(Sketch& sketch, BoneId bone, std::string name, ligament::ConstraintKind kind,
                                std::vector<ligament::Source> sources, ligament::Value weight = {});

void drive(Sketch& sketch, BoneId bone, std::uint8_t channel, ligament::Value value);

/// A part of a stack is looked up by name in the rig that is being made; what is not there is a fault of this program.
BoneId bone_named(const Sketch& sketch, std::string_view name);
PropertyId property_named(const Sketch& sketch, std::string_view name);

/// The axis along a bone.
inline constexpr ligament::Axis lengthwise = ligament::Axis::y;

/// The scalar channels that this rig drives.
inline constexpr std::uint8_t position_y = 1, position_z = 2, rotation_x = 3, scale_x = 6, scale_y = 7, scale_z = 8;

}  // namespace heron
