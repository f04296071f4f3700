// How is a rig put together bone by bone?
#include "sketch.hpp"

#include <stdexcept>
#include <utility>

namespace heron {

using namespace ligament;

BoneId add_bone(Sketch& sketch, std::string name, Role role, BoneId parent, const Stick& place) {
    Bone bone;
    bone.name = std::move(name);
    bone.control = role == Role::control;
    bone.deform = role == Role::deform;
    bone.parent = parent;
    bone.group = sketch.group;
    bone.rest = rest_between(parent == none ? upright({0, 0, 0}, 1) : sketch.places[parent], place);
    bone.tip = {0, rounded(place.length), 0};
    sketch.rig.bones.push_back(std::move(bone));
    sketch.places.push_back(place);
    return static_cast<BoneId>(sketch.rig.bones.size() - 1);
}

BoneId add_deform_bone(Sketch& sketch, std::string name, BoneId parent, BoneId seat) {
    const Stick place = sketch.places[seat];
    const BoneId bone = add_bone(sketch, std::move(name), Role::deform, parent, place);
    constrain(sketch, bone, "seat", ConstraintKind::transform, {from(seat)});
    return bone;
}

PropertyId add_property(Sketch& sketch, std::string name, BoneId on, double low, double high) {
    Property property;
    property.name = std::move(name);
    property.on = on;
    property.initial = low;
    property.min = low;
    property.max = high;
    sketch.rig.properties.push_back(std::move(property));
    return static_cast<PropertyId>(sketch.rig.properties.size() - 1);
}

PropertyId add_switch(Sketch& sketch, std::string name, BoneId on, const std::vector<std::string>& stops) {
    const PropertyId id = add_property(sketch, std::move(name), on, 0, static_cast<double>(stops.size() - 1));
    for (const std::string& stop : stops) {
        auto& known = sketch.rig.properties[id].stops;
        known.emplace_back(stop, static_cast<double>(known.size()));
    }
    return id;
}

Value number(double value) {
    Value result;
    result.number = value;
    return result;
}

namespace {

Value add_driver(Sketch& sketch, Driver driver) {
    Value value;
    value.driver = static_cast<DriverId>(sketch.rig.drivers.size());
    sketch.rig.drivers.push_back(std::move(driver));
    return value;
}

Input read(std::string name, Input::Kind kind) {
    Input input;
    input.name = std::move(name);
    input.kind = kind;
    return input;
}

}  // namespace

Value expression(Sketch& sketch, std::string text, std::vector<Input> inputs) {
    Driver driver;
    driver.expression = std::move(text);
    driver.inputs = std::move(inputs);
    return add_driver(sketch, std::move(driver));
}

Value curve(Sketch& sketch, std::vector<std::array<double, 2>> points, Input input) {
    Driver driver;
    driver.curve = std::move(points);
    driver.inputs = {std::move(input)};
    return add_driver(sketch, std::move(driver));
}

Input read_property(std::string name, PropertyId property) {
    Input input = read(std::move(name), Input::Kind::property);
    input.property = property;
    return input;
}

Input read_channel(std::string name, BoneId bone, std::uint8_t channel) {
    Input input = read(std::move(name), Input::Kind::channel);
    input.bone = bone;
    input.channel = channel;
    return input;
}

Input read_distance(std::string name, BoneId bone, BoneId other) {
    Input input = read(std::move(name), Input::Kind::distance);
    input.bone = bone;
    input.other = other;
    return input;
}

Source from(BoneId bone, Value weight) {
    Source source;
    source.bone = bone;
    source.weight = weight;
    return source;
}

Constraint& constrain(Sketch& sketch, BoneId bone, std::string name, ConstraintKind kind, std::vector<Source> sources,
                      Value weight) {
    Constraint constraint;
    constraint.name = std::move(name);
    constraint.kind = kind;
    constraint.sources = std::move(sources);
    constraint.weight = weight;
    return sketch.rig.bones[bone].constraints.emplace_back(std::move(constraint));
}

void drive(Sketch& sketch, BoneId bone, std::uint8_t channel, Value value) {
    ChannelValue driven;
    driven.channel = channel;
    driven.value = value;
    sketch.rig.bones[bone].channels.push_back(driven);
}

BoneId bone_named(const Sketch& sketch, std::string_view name) {
    const BoneId bone = find_bone(sketch.rig, name);
    if (bone == none) throw std::logic_error("no bone " + std::string(name));
    return bone;
}

PropertyId property_named(const Sketch& sketch, std::string_view name) {
    const PropertyId property = find_property(sketch.rig, name);
    if (property == none) throw std::logic_error("no property " + std::string(name));
    return property;
}

}  // namespace heron
