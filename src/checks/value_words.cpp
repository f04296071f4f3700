#include "value_words.hpp"

#include <algorithm>
#include <cmath>

#include "number.hpp"

namespace ligament::checks {

namespace {

constexpr std::size_t points_shown = 12;

std::string input_words(const Rig& rig, const Input& input) {
    switch (input.kind) {
        case Input::Kind::property:
            return "property " + rig.properties[input.property].name;
        case Input::Kind::channel:
            return "bone " + rig.bones[input.bone].name + (input.space == Space::final ? " final " : " ") +
                   std::string(channel_name(input.channel));
        case Input::Kind::distance:
        case Input::Kind::angle:
            break;
    }
    return (input.kind == Input::Kind::distance ? "distance of " : "angle of ") + rig.bones[input.bone].name + " and " +
           rig.bones[input.other].name;
}

std::string curve_words(const Driver& driver) {
    std::string words = "curve";
    const std::size_t shown = std::min(driver.curve.size(), points_shown);
    for (std::size_t i = 0; i < shown; ++i)
        words += " " + number_text(driver.curve[i][0]) + ":" + number_text(driver.curve[i][1]);
    if (shown < driver.curve.size())
        words += " (showing " + std::to_string(shown) + " of " + std::to_string(driver.curve.size()) + ")";
    return words;
}

}  // namespace

std::string value_words(const Rig& rig, const Value& value) {
    if (!value.is_driven()) return number_text(value.number);
    const Driver& driver = rig.drivers[value.driver];
    if (driver.expression.empty())
        return curve_words(driver) + (driver.inputs.empty() ? "" : " over " + input_words(rig, driver.inputs.front()));
    std::string words = driver.expression;
    for (const Input& input : driver.inputs) words += ", " + input.name + " = " + input_words(rig, input);
    return words;
}

std::string source_words(const Rig& rig, const Source& source) {
    std::string words = source.object != none ? "object " + rig.objects[source.object].name : bone_words(rig, source.bone);
    if (source.at != 0) words += " at " + number_text(source.at);
    if (source.curved) words += ", curved";
    return words;
}

std::string channels_words(Channels channels) {
    std::string words;
    for (const auto& [part, name] : {std::pair{position_channels, "position"}, std::pair{rotation_channels, "rotation"},
                                     std::pair{scale_channels, "scale"}}) {
        const bool whole = (channels & part) == part;
        if (whole) words += (words.empty() ? "" : " ") + std::string(name);
        for (unsigned channel = 0; channel < 9 && !whole; ++channel)
            if ((channels & part & 1U << channel) != 0) words += (words.empty() ? "" : " ") + std::string(channel_name(channel));
    }
    return words.empty() ? "none" : words;
}

std::string place_words(const std::array<double, 3>& place) {
    std::string words;
    for (double x : place) {
        const double rounded = std::round(x * 1e6) / 1e6;
        words += (words.empty() ? "" : ", ") + number_text(rounded == 0 ? 0 : rounded);
    }
    return words;
}

std::string measured_words(double number, unsigned decimals) {
    const double unit = std::pow(10.0, decimals);
    const double rounded = std::round(number * unit) / unit;
    return rounded == 0 && number != 0 ? "less than " + number_text(1 / unit) : number_text(rounded);
}

std::string bone_words(const Rig& rig, BoneId bone) { return bone == none ? "none" : rig.bones[bone].name; }

}  // namespace ligament::checks
