// What is a rig? Bones, constraints, drivers, properties and objects as plain values that refer to each other by index.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "ligament/finding.hpp"
#include "ligament/rare.hpp"

namespace ligament {

using BoneId = std::uint32_t;      ///< index into Rig::bones
using PropertyId = std::uint32_t;  ///< index into Rig::properties
using ObjectId = std::uint32_t;    ///< index into Rig::objects
using DriverId = std::uint32_t;    ///< index into Rig::drivers

/// "No such element", for every kind of id.
inline constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

/// The three parts of a transform.
enum class Part : std::uint8_t { position, rotation, scale };

/// A set of the nine scalar channels, bit 3 * part + axis: position.x is bit 0, scale.z bit 8.
using Channels = std::uint16_t;
inline constexpr Channels position_channels = 0b000'000'111;
inline constexpr Channels rotation_channels = 0b000'111'000;
inline constexpr Channels scale_channels = 0b111'000'000;
inline constexpr Channels all_channels = 0b111'111'111;

/// A set of parts, bit = Part.
using Parts = std::uint8_t;
inline constexpr Parts position_part = 1;
inline constexpr Parts rotation_part = 2;
inline constexpr Parts scale_part = 4;
inline constexpr Parts all_parts = 7;

/// The parts of which at least one scalar channel is in `channels`.
Parts parts_of(Channels channels);

/// "position.x" to "scale.z" for 0..8.
std::string_view channel_name(unsigned channel);

enum class Space : std::uint8_t { final, local };

/// A number, or the driver that computes it.
struct Value {
    double number = 1.0;  ///< holds only when `driver` is none
    DriverId driver = none;

    bool is_driven() const { return driver != none; }
};

/// What a driver reads.
struct Input {
    enum class Kind : std::uint8_t { property, channel, distance, angle };
    std::string name;            ///< as the expression calls it; empty for the one input of a curve
    PropertyId property = none;  ///< kind property
    BoneId bone = none;          ///< kinds channel, distance, angle
    BoneId other = none;         ///< kinds distance, angle
    Place place;
    Kind kind = Kind::property;
    std::uint8_t channel = 0;    ///< kind channel: 0..8, position.x to scale.z
    Space space = Space::local;  ///< kind channel
};

/// A driven value: an expression over named inputs, or a piecewise linear curve over one input. Each belongs to one Value.
struct Driver {
    std::string expression;                    ///< empty for a curve
    std::vector<std::array<double, 2>> curve;  ///< points with strictly rising x; empty for an expression
    std::vector<Input> inputs;                 ///< in file order
    Place place;
};

/// What a constraint reads: a bone, a place along it, or an object.
struct Source {
    /// What the constraint uses it for; `from` is the list of plain sources.
    enum class Use : std::uint8_t { from, up, target, pole };
    BoneId bone = none;  ///< exactly one of bone and object is not none
    ObjectId object = none;
    double at = 0.0;  ///< place along the bone, 0 base to 1 tip
    Value weight;
    Place place;
    Use use = Use::from;
    bool curved = false;  ///< reads the bent bone
};

enum class ConstraintKind : std::uint8_t {
    transform,
    position,
    rotation,
    scale,
    aim,
    roll,
    stretch,
    distance,
    space,
    limit,
    surface,
    ik,
    path,
    custom
};

/// The word of the rig description for a kind, "transform" to "custom".
std::string_view name_of(ConstraintKind kind);

/// The axis of a bone that a constraint speaks of, with the sign as it is written: x and plus_x are the same direction.
enum class Axis : std::uint8_t { unset, x, y, z, minus_x, minus_y, minus_z, plus_x, plus_y, plus_z };

/// The word of the rig description for an axis, "x", "-y" or "+z"; nothing where it is not given.
std::string_view name_of(Axis axis);

struct Constraint {
    std::string name;  ///< unique on its bone
    ConstraintKind kind = ConstraintKind::transform;
    bool enabled = true;
    Space space = Space::final;
    std::uint8_t axes = 0b111;  ///< bit 0 x, bit 1 y, bit 2 z
    bool additive = false;
    bool align = false;                ///< surface: writes rotation too
    bool orient = false;               ///< ik: reads the target's rotation too
    Axis axis = Axis::unset;           ///< aim, roll, stretch
    std::uint32_t chain = 0;           ///< ik, path: number of bones of the chain, the owner included; else 0
    Channels channels = all_channels;  ///< transform, limit
    Channels reads = 0;                ///< custom
    Channels writes = 0;               ///< custom
    Place place;
    Rare<std::string> label;            ///< custom; never empty
    Rare<std::array<double, 2>> range;  ///< distance, limit: low, high
    Value weight;
    std::vector<Source> sources;  ///< from in file order, then up, target, pole

    /// ik and path run over a chain of bones, and are vertices of their own.
    bool is_solver() const { return kind == ConstraintKind::ik || kind == ConstraintKind::path; }
    /// Disabled, or of a weight that is the number 0: its edges are kept but count for nothing.
    bool is_inert() const;
};

/// A bone bent between two handle bones.
struct BoneCurve {
    std::uint32_t segments = 1;
    BoneId start = none;  ///< handle at the base; none when not given
    BoneId end = none;    ///< handle at the tip; none when not given
    Place place;
};

/// Rest transform local to the parent, as glTF 2.0 has it: metres, right-handed, +Y up, quaternion x y z w.
struct Rest {
    std::array<double, 3> translation{0, 0, 0};
    std::array<double, 4> rotation{0, 0, 0, 1};
    std::array<double, 3> scale{1, 1, 1};
};

/// One entry of a bone's `channels`: a preset pose (a number) or a driven channel.
struct ChannelValue {
    std::uint8_t channel = 0;  ///< 0..8, position.x to scale.z
    Value value;
    Place place;
};

struct Bone {
    std::string name;
    BoneId parent = none;
    Parts from_parent = all_parts;
    bool control = false;
    bool deform = false;         ///< neither: a mechanism bone
    bool role_is_stated = true;  ///< false where a reader made it out from weights and animations
    std::string group;           ///< empty when not given
    std::optional<Rest> rest;
    Rare<std::array<double, 3>> tip;
    Rare<BoneCurve> curve;
    std::vector<ChannelValue> channels;
    std::vector<Constraint> constraints;
    Place place;

    bool is_mechanism() const { return !control && !deform; }
};

struct Property {
    std::string name;
    BoneId on = none;
    double initial = 0.0;  ///< `default` of the rig description
    std::optional<double> min, max;
    std::optional<Value> value;                         ///< a driven property
    std::vector<std::pair<std::string, double>> stops;  ///< in file order
    Place place;

    bool is_driven() const { return value && value->is_driven(); }
};

struct Object {
    std::string name;
    std::vector<BoneId> follows;
    Place place;
};

/// What a reader noticed in a file that can be used all the same.
struct Remark {
    enum class Kind : std::uint8_t {
        standard_broken,   ///< something that the standard of the format forbids
        weights_unread,    ///< vertex weights that could not be read, so that all joints of a skin count as deform bones
        joint_unweighted,  ///< joints of a skin that no vertex is weighted to
        extension_unread   ///< extensions of the format that are not looked at
    };
    Kind kind = Kind::standard_broken;
    std::string message;  ///< worded as findings are
    std::vector<BoneId> bones;
    Place place;
    std::string pointer = {};  ///< where in the JSON of a glTF file, as a JSON Pointer (RFC 6901)
};

/// A whole rig. Ids are positions in these vectors, which keep the order of the file.
struct Rig {
    std::string name;
    std::vector<std::pair<std::string, std::string>> sides;
    std::optional<std::vector<BoneId>> roots;  ///< as listed; an empty list says that there are none
    std::vector<Property> properties;
    std::vector<Object> objects;
    std::vector<Bone> bones;
    std::vector<Driver> drivers;  ///< in the order of their places in the file
    std::vector<Remark> remarks;  ///< in file order
    /// JSON Pointers (RFC 6901) of the places in a glTF file, in the order of these; empty for a rig description.
    std::vector<std::pair<Place, std::string>> pointers;
};

/// The JSON Pointer of what stands at a place in a glTF file, or nothing. Logarithmic.
std::string_view pointer_at(const Rig& rig, Place place);

/// The bone of that name, or none. Linear in the number of bones.
BoneId find_bone(const Rig& rig, std::string_view name);

/// The property of that name, or none. Linear.
PropertyId find_property(const Rig& rig, std::string_view name);

/// The object of that name, or none. Linear.
ObjectId find_object(const Rig& rig, std::string_view name);

/// "control", "deform", "control + deform" or "mechanism".
std::string_view role_of(const Bone& bone);

}  // namespace ligament
