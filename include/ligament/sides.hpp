// Which bones and properties mirror each other, what has no mirror on the other side, and what is not the same there?
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/rig.hpp"

namespace ligament {

/// The side of a name: a pair of tokens of Rig::sides, and which of the two.
struct NameSide {
    std::uint32_t pair = none;  ///< index into Rig::sides; none: on no side
    bool is_second = false;

    explicit operator bool() const { return pair != none; }
    bool is_other_of(NameSide side) const { return pair != none && pair == side.pair && is_second != side.is_second; }
};

/// A name with its side and what it is called on the other one.
struct SidedName {
    NameSide side;
    std::string mirrored;  ///< every token of the pair replaced by its partner; the name itself on no side
};

/// Looks at a name by the tokens of a rig. A token counts where no letter or digit touches its own letter or digit end (what is
/// not ASCII counts as letters); case matters. Of several pairs the first counts of which the name has one token and not the
/// other; so a name with both is on no side of that pair.
SidedName look_at_side(const Rig& rig, std::string_view name);

/// Where one element stands.
struct Sided {
    NameSide side;
    std::uint32_t partner = none;  ///< the element of the mirrored name; none where there is none, and on no side
};

/// Bones, properties and objects by id.
struct Sides {
    std::vector<Sided> bones, properties, objects;

    /// Whether any bone or property is on a side.
    bool is_any() const;
};

/// Linear in the names and the distinct lengths of the tokens.
Sides find_sides(const Rig& rig);

/// What is there on one side alone. Constraints and drivers are told of bones that have a partner only.
struct Unpaired {
    enum class What : std::uint8_t { bone, property, constraint, driver };
    What what = What::bone;
    std::uint32_t element = none;  ///< the property; else the bone, or that with the constraint or driven channel
    std::uint32_t index = 0;       ///< constraint: index into Bone::constraints; driver: index into Bone::channels
};

/// Bones in file order, each with its constraints and channels; then properties. A constraint is paired with one of the partner's
/// stack that has its kind and mirrored sources, else its kind and mirrored name, else its kind, else its mirrored name, in file
/// order. A channel is unpaired where it is driven and the partner has no entry for it.
std::vector<Unpaired> find_unpaired(const Rig& rig, const Sides& sides);

/// One thing that is not mirrored. What is expected of the mirror of a reference is the partner; what is on no side, and an
/// object, is its own. Whatever refers to a bone or property without partner is not looked at: that one is told as unpaired.
struct SideDifference {
    enum class Aspect : std::uint8_t {
        roles,
        parent,
        group,
        from_parent,
        rest_position,
        tip,
        curve,  ///< only one has one
        curve_segments,
        curve_start,
        curve_end,
        channel,  ///< left and right: index into Bone::channels
        order,    ///< of the constraints
        kind,     ///< from here on left and right: index into Bone::constraints
        enabled,
        space,
        axes,
        additive,
        align,
        orient,
        chain,
        channels,
        reads,
        writes,
        axis,
        label,
        range,
        weight,
        source,  ///< with sources: index into Constraint::sources
        source_at,
        source_curved,
        source_weight,
        initial,  ///< of a property
        min,
        max,
        stops,
        carrier,
        driver
    };
    Aspect aspect = Aspect::roles;
    std::uint32_t left = none, right = none;                ///< none where it is missing there
    std::uint32_t left_source = none, right_source = none;  ///< none where it is missing there
    /// rest_position and tip: places in the space of the rig; none where it is missing there.
    std::optional<std::array<double, 3>> left_place = {}, right_place = {};
};

/// Two partners that are not the same rig.
struct DifferingPair {
    std::uint32_t left = none, right = none;  ///< in file order: bones, or properties
    std::vector<SideDifference> differences;  ///< in the order of Aspect, those of constraints in the order of the left stack
};

/// A plane square to an axis in which the rig is mirrored.
struct MirrorPlane {
    unsigned axis = 0;  ///< 0 x, 1 y, 2 z
    double offset = 0;  ///< where it cuts the axis
};

struct SideDifferences {
    std::optional<MirrorPlane> plane;  ///< none where no two partners have a known place at rest
    std::vector<DifferingPair> bones;  ///< in file order of the left ones
    std::vector<DifferingPair> properties;
};

/// What partners differ in, values that only mirroring changes apart:
/// - driven values are the same where they come to the same at two hundred settings and more of their inputs; channels of
/// position and
///   rotation, whether driven or read, may turn their sign, and so may a property on no side whose range is even about 0;
/// - the range of a limit of position or rotation may be turned about 0;
/// - groups without a side in their names ("left arm") may be each other's where most bones of both have their partners there;
/// - an axis may have the other sign where the rest pose does not say which one is meant.
/// Places at rest are compared across a plane through 0 square to the axis whose mirroring fits most pairs (ties: x, z, y), or
/// through the middle of all pairs where that fits more of at least three. What is moved along with its parent is told of the
/// parent alone.
SideDifferences find_side_differences(const Rig& rig, const Sides& sides, double mirror_distance);

}  // namespace ligament
