#include "side_words.hpp"

#include <array>

#include "number.hpp"
#include "value_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

using Aspect = SideDifference::Aspect;

std::string yes_or_no(bool is_so) { return is_so ? "yes" : "no"; }

std::string range_words(const Rare<std::array<double, 2>>& range) {
    return range ? number_text((*range)[0]) + " to " + number_text((*range)[1]) : std::string();
}

std::string number_words(const std::optional<double>& number) { return number ? number_text(*number) : std::string(); }

std::string axes_words(std::uint8_t axes) {
    std::string words;
    for (unsigned axis = 0; axis < 3; ++axis)
        if ((axes >> axis & 1U) != 0) words += static_cast<char>('x' + axis);
    return words.empty() ? "none" : words;
}

std::string parts_words(Parts parts) {
    std::string words;
    for (const auto& [part, name] :
         {std::pair{position_part, "position"}, std::pair{rotation_part, "rotation"}, std::pair{scale_part, "scale"}})
        if ((parts & part) != 0) words += (words.empty() ? "" : " ") + std::string(name);
    return words.empty() ? "none" : words;
}

std::string stack_words(const Bone& bone) {
    std::string words;
    for (const Constraint& constraint : bone.constraints) words += (words.empty() ? "" : ", ") + constraint.name;
    return words;
}

std::string stops_words(const Property& property) {
    std::string words;
    for (const auto& [name, value] : property.stops) words += (words.empty() ? "" : ", ") + name + " = " + number_text(value);
    return words;
}

/// What a constraint says about an aspect.
std::string setting_words(const Rig& rig, const Constraint& constraint, Aspect aspect) {
    switch (aspect) {
        case Aspect::kind:
            return std::string(name_of(constraint.kind));
        case Aspect::enabled:
            return yes_or_no(constraint.enabled);
        case Aspect::space:
            return constraint.space == Space::final ? "final" : "local";
        case Aspect::axes:
            return axes_words(constraint.axes);
        case Aspect::additive:
            return yes_or_no(constraint.additive);
        case Aspect::align:
            return yes_or_no(constraint.align);
        case Aspect::orient:
            return yes_or_no(constraint.orient);
        case Aspect::chain:
            return counted(constraint.chain, "bone");
        case Aspect::channels:
            return channels_words(constraint.channels);
        case Aspect::reads:
            return channels_words(constraint.reads);
        case Aspect::writes:
            return channels_words(constraint.writes);
        case Aspect::axis:
            return std::string(name_of(constraint.axis));
        case Aspect::label:
            return constraint.label.value_or({});
        case Aspect::range:
            return range_words(constraint.range);
        case Aspect::weight:
            return value_words(rig, constraint.weight);
        default:
            return {};
    }
}

std::string read_words(const Rig& rig, const Source& source, Aspect aspect) {
    if (aspect == Aspect::source_at) return number_text(source.at);
    if (aspect == Aspect::source_curved) return yes_or_no(source.curved);
    if (aspect == Aspect::source_weight) return value_words(rig, source.weight);
    return source_words(rig, source);
}

std::string side_words(const Rig& rig, BoneId id, Aspect aspect, std::uint32_t index, std::uint32_t source) {
    const Bone& bone = rig.bones[id];
    switch (aspect) {
        case Aspect::roles:
            return std::string(role_of(bone));
        case Aspect::parent:
            return bone_words(rig, bone.parent);
        case Aspect::group:
            return bone.group.empty() ? "none" : bone.group;
        case Aspect::from_parent:
            return parts_words(bone.from_parent);
        case Aspect::curve:
            return bone.curve ? counted(bone.curve->segments, "segment") : std::string();
        case Aspect::curve_segments:
            return std::to_string(bone.curve->segments);
        case Aspect::curve_start:
            return bone_words(rig, bone.curve->start);
        case Aspect::curve_end:
            return bone_words(rig, bone.curve->end);
        case Aspect::channel:
            return index == none ? std::string() : value_words(rig, bone.channels[index].value);
        case Aspect::order:
            return stack_words(bone);
        default:
            break;
    }
    const Constraint& constraint = bone.constraints[index];
    if (aspect < Aspect::source) return setting_words(rig, constraint, aspect);
    return source == none ? std::string() : read_words(rig, constraint.sources[source], aspect);
}

// In the order of Aspect; empty where the words come from elsewhere.
constexpr std::array<std::string_view, 37> words_of_aspects{"roles",
                                                            "parent",
                                                            "group",
                                                            "taken from the parent",
                                                            "rest position",
                                                            "tip",
                                                            "curve",
                                                            "segments of the curve",
                                                            "start handle of the curve",
                                                            "end handle of the curve",
                                                            "",
                                                            "order of the constraints",
                                                            "kind",
                                                            "enabled",
                                                            "space",
                                                            "axes",
                                                            "additive",
                                                            "align",
                                                            "orient",
                                                            "chain",
                                                            "channels",
                                                            "reads",
                                                            "writes",
                                                            "axis",
                                                            "label",
                                                            "range",
                                                            "weight",
                                                            "",
                                                            "place along the",
                                                            "curved reading of the",
                                                            "weight of the",
                                                            "default",
                                                            "min",
                                                            "max",
                                                            "stops",
                                                            "on",
                                                            "driver"};
static_assert(words_of_aspects[static_cast<std::size_t>(Aspect::driver)] == "driver");

std::string_view aspect_words(Aspect aspect) { return words_of_aspects[static_cast<std::size_t>(aspect)]; }

/// "source", "source 2", "up", "target", "pole".
std::string use_words(const Constraint& constraint, std::uint32_t index) {
    switch (constraint.sources[index].use) {
        case Source::Use::up:
            return "up";
        case Source::Use::target:
            return "target";
        case Source::Use::pole:
            return "pole";
        case Source::Use::from:
            break;
    }
    const bool is_only = constraint.sources.size() < 2 || constraint.sources[1].use != Source::Use::from;
    return is_only ? "source" : "source " + std::to_string(index + 1);
}

std::string what_words(const Rig& rig, const DifferingPair& pair, const SideDifference& difference) {
    const Bone &left = rig.bones[pair.left], &right = rig.bones[pair.right];
    std::string words(aspect_words(difference.aspect));
    if (difference.aspect == Aspect::channel)
        return std::string(
            channel_name((difference.left != none ? left.channels[difference.left] : right.channels[difference.right]).channel));
    if (difference.aspect < Aspect::kind) return words;
    const std::string of = " of " + quoted(left.constraints[difference.left].name);
    if (difference.aspect < Aspect::source) return words + of;
    const bool in_left = difference.left_source != none;
    const std::string use = in_left ? use_words(left.constraints[difference.left], difference.left_source)
                                    : use_words(right.constraints[difference.right], difference.right_source);
    return words + (words.empty() ? "" : " ") + use + of;
}

std::string carried_words(const Rig& rig, const Property& property, Aspect aspect) {
    switch (aspect) {
        case Aspect::initial:
            return number_text(property.initial);
        case Aspect::min:
            return number_words(property.min);
        case Aspect::max:
            return number_words(property.max);
        case Aspect::stops:
            return stops_words(property);
        case Aspect::carrier:
            return bone_words(rig, property.on);
        default:
            return property.value ? value_words(rig, *property.value) : std::string();
    }
}

}  // namespace

Difference bone_difference(const Rig& rig, const DifferingPair& pair, const SideDifference& difference) {
    if (difference.aspect == Aspect::rest_position || difference.aspect == Aspect::tip)
        return {std::string(aspect_words(difference.aspect)), difference.left_place ? place_words(*difference.left_place) : "",
                difference.right_place ? place_words(*difference.right_place) : ""};
    return {what_words(rig, pair, difference),
            side_words(rig, pair.left, difference.aspect, difference.left, difference.left_source),
            side_words(rig, pair.right, difference.aspect, difference.right, difference.right_source)};
}

Difference property_difference(const Rig& rig, const DifferingPair& pair, const SideDifference& difference) {
    return {std::string(aspect_words(difference.aspect)), carried_words(rig, rig.properties[pair.left], difference.aspect),
            carried_words(rig, rig.properties[pair.right], difference.aspect)};
}

}  // namespace ligament::checks
