// How is a rig written as a rig description?
#include <algorithm>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>

#include "ligament/read.hpp"

namespace ligament {

namespace {

std::string text_of(std::string_view text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

// The shortest digits that read back as the same number. What is no number becomes null, which reading refuses.
std::string text_of(double number) {
    if (!std::isfinite(number)) return "null";
    if (number == 0 && std::signbit(number)) return "-0.0";
    char digits[32];
    const auto [end, error] = std::to_chars(digits, digits + sizeof digits, number);
    return {digits, end};
}

std::string text_of(bool flag) { return flag ? "true" : "false"; }

template <class Items, class Text>
std::string list_of(const Items& items, Text text) {
    std::string list = "[";
    for (const auto& item : items) list.append(list.size() > 1 ? ", " : "").append(text(item));
    return list + "]";
}

template <std::size_t size>
std::string list_of(const std::array<double, size>& numbers) {
    return list_of(numbers, [](double number) { return text_of(number); });
}

// An object on one line, key by key.
struct ObjectText {
    std::string text = "{";

    void add(std::string_view key, std::string_view value) {
        text.append(text.size() > 1 ? ", " : "").append(text_of(key)).append(": ").append(value);
    }
    std::string done() { return std::move(text) + "}"; }
};

struct Writer {
    const Rig& rig;
    std::string out;

    std::string bone(BoneId id) const { return text_of(rig.bones[id].name); }
    std::string bones(const std::vector<BoneId>& ids) const {
        return list_of(ids, [this](BoneId id) { return bone(id); });
    }
};

std::string input_text(const Writer& writer, const Input& input) {
    ObjectText object;
    switch (input.kind) {
        case Input::Kind::property:
            object.add("property", text_of(writer.rig.properties[input.property].name));
            break;
        case Input::Kind::channel:
            object.add("bone", writer.bone(input.bone));
            object.add("channel", text_of(channel_name(input.channel)));
            if (input.space == Space::final) object.add("space", text_of(std::string_view("final")));
            break;
        case Input::Kind::distance:
            object.add("distance", writer.bones({input.bone, input.other}));
            break;
        case Input::Kind::angle:
            object.add("angle", writer.bones({input.bone, input.other}));
            break;
    }
    return object.done();
}

std::string value_text(const Writer& writer, const Value& value) {
    if (!value.is_driven()) return text_of(value.number);
    const Driver& driver = writer.rig.drivers[value.driver];
    ObjectText object;
    if (!driver.curve.empty()) {
        object.add("curve", list_of(driver.curve, [](const auto& point) { return list_of(point); }));
        if (!driver.inputs.empty()) object.add("input", input_text(writer, driver.inputs.front()));
        return object.done();
    }
    object.add("expression", text_of(driver.expression));
    ObjectText inputs;
    for (const Input& input : driver.inputs) inputs.add(input.name, input_text(writer, input));
    if (!driver.inputs.empty()) object.add("inputs", inputs.done());
    return object.done();
}

bool is_default(const Value& value) { return !value.is_driven() && value.number == 1.0; }

std::string source_text(const Writer& writer, const Source& source) {
    const bool is_plain = source.object == none && !source.curved && source.at == 0.0 && is_default(source.weight);
    if (is_plain) return writer.bone(source.bone);
    ObjectText object;
    if (source.object != none)
        object.add("object", text_of(writer.rig.objects[source.object].name));
    else
        object.add("bone", writer.bone(source.bone));
    if (source.at != 0.0) object.add("at", text_of(source.at));
    if (source.curved) object.add("curved", text_of(true));
    if (!is_default(source.weight)) object.add("weight", value_text(writer, source.weight));
    return object.done();
}

// Whole parts by one word, other channels one by one.
std::string channels_text(Channels channels) {
    std::vector<std::string_view> words;
    for (unsigned part = 0; part < 3; ++part) {
        static constexpr std::array<std::string_view, 3> parts{"position", "rotation", "scale"};
        const unsigned bits = static_cast<unsigned>(channels) >> (3 * part) & 7U;
        if (bits == 7U) words.push_back(parts[part]);
        for (unsigned axis = 0; axis < 3 && bits != 7U; ++axis)
            if ((bits >> axis & 1U) != 0) words.push_back(channel_name(3 * part + axis));
    }
    return list_of(words, [](std::string_view word) { return text_of(word); });
}

void add_sources(const Writer& writer, const Constraint& constraint, ObjectText& object) {
    std::vector<const Source*> from;
    for (const Source& source : constraint.sources)
        if (source.use == Source::Use::from) from.push_back(&source);
    if (from.size() == 1) object.add("from", source_text(writer, *from.front()));
    if (from.size() > 1) object.add("from", list_of(from, [&](const Source* source) { return source_text(writer, *source); }));
    for (const Source& source : constraint.sources) {
        if (source.use == Source::Use::up) object.add("up", source_text(writer, source));
        if (source.use == Source::Use::target) object.add("target", source_text(writer, source));
        if (source.use == Source::Use::pole) object.add("pole", source_text(writer, source));
    }
}

void add_keys_of_kind(const Constraint& constraint, ObjectText& object) {
    if (constraint.is_solver()) object.add("chain", text_of(static_cast<double>(constraint.chain)));
    if (constraint.orient) object.add("orient", text_of(true));
    if (constraint.align) object.add("align", text_of(true));
    if (constraint.kind == ConstraintKind::limit || constraint.channels != all_channels)
        object.add("channels", channels_text(constraint.channels));
    if (constraint.kind == ConstraintKind::custom) {
        object.add("reads", channels_text(constraint.reads));
        object.add("writes", channels_text(constraint.writes));
    }
    if (constraint.label) object.add("label", text_of(*constraint.label));
    if (constraint.axis != Axis::unset) object.add("axis", text_of(name_of(constraint.axis)));
    if (constraint.range) object.add("range", list_of(*constraint.range));
}

std::string constraint_text(const Writer& writer, const Constraint& constraint) {
    ObjectText object;
    if (!constraint.name.empty()) object.add("name", text_of(constraint.name));
    object.add("kind", text_of(name_of(constraint.kind)));
    add_sources(writer, constraint, object);
    add_keys_of_kind(constraint, object);
    if (constraint.space == Space::local) object.add("space", text_of(std::string_view("local")));
    if (constraint.axes != 0b111) {
        std::string axes;
        for (unsigned axis = 0; axis < 3; ++axis)
            if ((constraint.axes >> axis & 1U) != 0) axes += "xyz"[axis];
        object.add("axes", text_of(axes));
    }
    if (constraint.additive) object.add("additive", text_of(true));
    if (!is_default(constraint.weight)) object.add("weight", value_text(writer, constraint.weight));
    if (!constraint.enabled) object.add("enabled", text_of(false));
    return object.done();
}

std::string rest_text(const Rest& rest) {
    static constexpr Rest unmoved;
    ObjectText object;
    if (rest.translation != unmoved.translation) object.add("translation", list_of(rest.translation));
    if (rest.rotation != unmoved.rotation) object.add("rotation", list_of(rest.rotation));
    if (rest.scale != unmoved.scale) object.add("scale", list_of(rest.scale));
    return object.done();
}

std::string curve_text(const Writer& writer, const BoneCurve& curve) {
    ObjectText object;
    if (curve.segments != 1) object.add("segments", text_of(static_cast<double>(curve.segments)));
    if (curve.start != none) object.add("start", writer.bone(curve.start));
    if (curve.end != none) object.add("end", writer.bone(curve.end));
    return object.done();
}

void add_words_of_bone(const Writer& writer, const Bone& bone, ObjectText& object) {
    object.add("name", text_of(bone.name));
    std::vector<std::string_view> words;
    if (bone.control) words.push_back("control");
    if (bone.deform) words.push_back("deform");
    const auto word_text = [](std::string_view word) { return text_of(word); };
    if (!words.empty()) object.add("roles", list_of(words, word_text));
    if (bone.parent != none) object.add("parent", writer.bone(bone.parent));
    if (!bone.group.empty()) object.add("group", text_of(bone.group));
    if (bone.from_parent == all_parts) return;
    words.clear();
    if ((bone.from_parent & position_part) != 0) words.push_back("position");
    if ((bone.from_parent & rotation_part) != 0) words.push_back("rotation");
    if ((bone.from_parent & scale_part) != 0) words.push_back("scale");
    object.add("from_parent", list_of(words, word_text));
}

// One line a bone, and one more for each of its constraints.
std::string bone_text(const Writer& writer, const Bone& bone) {
    ObjectText object;
    add_words_of_bone(writer, bone, object);
    if (bone.rest) object.add("rest", rest_text(*bone.rest));
    if (bone.tip) object.add("tip", list_of(*bone.tip));
    ObjectText channels;
    for (const ChannelValue& channel : bone.channels)
        channels.add(channel_name(channel.channel), value_text(writer, channel.value));
    if (!bone.channels.empty()) object.add("channels", channels.done());
    if (bone.curve) object.add("curve", curve_text(writer, *bone.curve));
    std::string constraints;
    for (const Constraint& constraint : bone.constraints)
        constraints.append(constraints.empty() ? "[\n      " : ",\n      ").append(constraint_text(writer, constraint));
    if (!bone.constraints.empty()) object.add("constraints", constraints + "]");
    return object.done();
}

std::string property_text(const Writer& writer, const Property& property) {
    ObjectText object;
    object.add("name", text_of(property.name));
    if (property.on != none) object.add("on", writer.bone(property.on));
    if (property.initial != 0.0) object.add("default", text_of(property.initial));
    if (property.min) object.add("min", text_of(*property.min));
    if (property.max) object.add("max", text_of(*property.max));
    if (property.is_driven()) object.add("value", value_text(writer, *property.value));
    ObjectText stops;
    for (const auto& [name, number] : property.stops) stops.add(name, text_of(number));
    if (!property.stops.empty()) object.add("stops", stops.done());
    return object.done();
}

std::string object_text(const Writer& writer, const Object& object) {
    ObjectText text;
    text.add("name", text_of(object.name));
    if (!object.follows.empty()) text.add("follows", writer.bones(object.follows));
    return text.done();
}

// A list of the rig, one line an item.
template <class Items, class Text>
void add_lines(Writer& writer, std::string_view key, const Items& items, Text text) {
    writer.out.append(",\n  ").append(text_of(key)).append(": [");
    bool first = true;
    for (const auto& item : items) {
        writer.out.append(first ? "\n    " : ",\n    ").append(text(writer, item));
        first = false;
    }
    writer.out += first ? "]" : "\n  ]";
}

}  // namespace

std::string write_rig(const Rig& rig) {
    Writer writer{rig, "{\n  \"format\": \"rig-description\", \"version\": 1, \"name\": " + text_of(rig.name)};
    const auto has_stated_role = [](const Bone& bone) { return bone.role_is_stated; };
    if (!rig.bones.empty() && std::none_of(rig.bones.begin(), rig.bones.end(), has_stated_role))
        writer.out += ",\n  \"extras\": {\"roles_are_stated\": false}";
    if (!rig.sides.empty())
        writer.out += ",\n  \"sides\": " + list_of(rig.sides, [](const auto& side) {
                          return "[" + text_of(side.first) + ", " + text_of(side.second) + "]";
                      });
    if (rig.roots) writer.out += ",\n  \"roots\": " + writer.bones(*rig.roots);
    if (!rig.properties.empty()) add_lines(writer, "properties", rig.properties, property_text);
    if (!rig.objects.empty()) add_lines(writer, "objects", rig.objects, object_text);
    add_lines(writer, "bones", rig.bones, bone_text);
    return std::move(writer.out) + "\n}\n";
}

}  // namespace ligament
