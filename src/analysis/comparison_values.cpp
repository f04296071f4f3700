#include "comparison_values.hpp"

#include <algorithm>

#include "number.hpp"

namespace ligament {

namespace {

std::string number(double value) { return number_text(value == 0 ? 0 : value); }

template <std::size_t size>
std::string numbers(const std::array<double, size>& values) {
    std::string text;
    for (const double value : values) text += (text.empty() ? "" : ", ") + number(value);
    return text;
}

/// A rotation is one with its negative.
std::array<double, 4> upright(std::array<double, 4> turn) {
    for (std::size_t i = 4; i-- > 0;) {
        if (turn[i] == 0) continue;
        if (turn[i] < 0)
            for (double& part : turn) part = -part;
        break;
    }
    return turn;
}

std::string channels_text(Channels channels) {
    std::string text;
    static constexpr std::array<std::string_view, 3> parts{"position", "rotation", "scale"};
    const auto add = [&](std::string_view word) { text.append(text.empty() ? "" : ", ").append(word); };
    for (unsigned part = 0; part < 3; ++part) {
        const unsigned bits = static_cast<unsigned>(channels) >> (3 * part) & 7U;
        if (bits == 7U) add(parts[part]);
        for (unsigned axis = 0; axis < 3 && bits != 7U; ++axis)
            if ((bits >> axis & 1U) != 0) add(channel_name(3 * part + axis));
    }
    return text;
}

std::string parts_text(Parts parts) {
    std::string text;
    for (const auto& [bit, word] : {std::pair{position_part, "position"}, {rotation_part, "rotation"}, {scale_part, "scale"}})
        if ((parts & bit) != 0) text += (text.empty() ? "" : ", ") + std::string(word);
    return text.empty() ? "nothing" : text;
}

std::string axes_text(std::uint8_t axes) {
    std::string text;
    for (unsigned axis = 0; axis < 3; ++axis)
        if ((axes >> axis & 1U) != 0) text += "xyz"[axis];
    return text;
}

std::string flag(bool is_set) { return is_set ? "true" : "false"; }

}  // namespace

bool has_given_name(const Constraint& constraint, std::size_t index) {
    return constraint.name != std::string(name_of(constraint.kind)) + std::to_string(index + 1);
}

ValueWriter::ValueWriter(const Rig& rig, const Matching& matching, bool is_before) : rig_(rig), is_before_(is_before) {
    // A rig after calls its own elements by their ids, and marks those that are new.
    bones_ = is_before ? &matching.bones.after : &matching.bones.before;
    properties_ = is_before ? &matching.properties.after : &matching.properties.before;
    objects_ = is_before ? &matching.objects.after : &matching.objects.before;
    if (is_before)
        for (const auto& [from, to] : matching.groups) groups_.emplace(from, to);
}

namespace {

std::string called(const std::vector<std::uint32_t>& counterparts, std::uint32_t id, bool is_before) {
    const std::uint32_t other = counterparts[id];
    if (other == none) return (is_before ? "-" : "+") + std::to_string(id);
    return "#" + std::to_string(is_before ? other : id);
}

}  // namespace

std::string ValueWriter::bone(BoneId id) const { return bones_ ? called(*bones_, id, is_before_) : rig_.bones[id].name; }

std::string ValueWriter::property(PropertyId id) const {
    return properties_ ? called(*properties_, id, is_before_) : rig_.properties[id].name;
}

std::string ValueWriter::object(ObjectId id) const {
    return objects_ ? called(*objects_, id, is_before_) : rig_.objects[id].name;
}

std::string ValueWriter::group(const std::string& name) const {
    const auto found = groups_.find(name);
    return found == groups_.end() ? name : found->second;
}

std::string ValueWriter::input(const Input& in) const {
    switch (in.kind) {
        case Input::Kind::property:
            return property(in.property);
        case Input::Kind::channel:
            return bone(in.bone) + " " + std::string(channel_name(in.channel)) +
                   (in.space == Space::final ? " in final space" : "");
        case Input::Kind::distance:
            return "distance of " + bone(in.bone) + " and " + bone(in.other);
        case Input::Kind::angle:
            break;
    }
    return "angle of " + bone(in.bone) + " and " + bone(in.other);
}

std::string ValueWriter::value(const Value& value) const {
    if (!value.is_driven()) return number(value.number);
    const Driver& driver = rig_.drivers[value.driver];
    std::string text = driver.expression;
    if (!driver.curve.empty()) {
        text = "curve";
        for (const auto& [x, y] : driver.curve) text += " " + number(x) + ":" + number(y);
        if (!driver.inputs.empty()) text += " of " + input(driver.inputs.front());
        return text;
    }
    std::vector<const Input*> inputs;  // a map: their order says nothing
    for (const Input& in : driver.inputs) inputs.push_back(&in);
    std::sort(inputs.begin(), inputs.end(), [](const Input* a, const Input* b) { return a->name < b->name; });
    for (std::size_t i = 0; i < inputs.size(); ++i)
        text += (i == 0 ? " with " : ", ") + inputs[i]->name + " = " + input(*inputs[i]);
    return text;
}

std::string ValueWriter::source(const Source& of) const {
    std::string text = of.object != none ? "object " + object(of.object) : bone(of.bone);
    if (of.at != 0) text += " at " + number(of.at);
    return of.curved ? text + " curved" : text;
}

std::vector<ValueWriter::Field> ValueWriter::of_rig() const {
    std::vector<Field> fields{{"name", rig_.name}};
    std::string sides;
    for (const auto& [left, right] : rig_.sides) sides += (sides.empty() ? "" : ", ") + left + " " + right;
    if (!rig_.sides.empty()) fields.push_back({"sides", std::move(sides)});
    if (!rig_.roots) return fields;
    std::vector<std::string> names;
    for (const BoneId root : *rig_.roots) names.push_back(bone(root));
    if (bones_) std::sort(names.begin(), names.end());
    std::string roots;
    for (const std::string& name : names) roots += (roots.empty() ? "" : ", ") + name;
    fields.push_back({"roots", names.empty() ? "none" : std::move(roots)});
    return fields;
}

std::vector<ValueWriter::Field> ValueWriter::of_bone(const Bone& of) const {
    std::vector<Field> fields;
    if (of.parent != none) fields.push_back({"parent", bone(of.parent)});
    fields.push_back({"roles", std::string(role_of(of))});
    if (!of.group.empty()) fields.push_back({"group", group(of.group)});
    fields.push_back({"from_parent", parts_text(of.from_parent)});
    if (of.rest) {
        fields.push_back({"rest.translation", numbers(of.rest->translation)});
        fields.push_back({"rest.rotation", numbers(upright(of.rest->rotation))});
        fields.push_back({"rest.scale", numbers(of.rest->scale)});
    }
    if (of.tip) fields.push_back({"tip", numbers(*of.tip)});
    if (of.curve) {
        fields.push_back({"curve.segments", std::to_string(of.curve->segments)});
        if (of.curve->start != none) fields.push_back({"curve.start", bone(of.curve->start)});
        if (of.curve->end != none) fields.push_back({"curve.end", bone(of.curve->end)});
    }
    for (const ChannelValue& channel : of.channels)
        fields.push_back({"channels." + std::string(channel_name(channel.channel)), value(channel.value)});
    return fields;
}

void ValueWriter::add_sources(const Constraint& of, std::vector<Field>& fields) const {
    std::string from;
    std::size_t count = 0;
    std::vector<Field> weights;
    const auto is_one = [](const Value& weight) { return !weight.is_driven() && weight.number == 1.0; };
    for (const Source& read : of.sources) {
        static constexpr std::array<std::string_view, 4> uses{"from", "up", "target", "pole"};
        const std::string use(uses[static_cast<std::size_t>(read.use)]);
        const bool is_plain = read.use == Source::Use::from;
        if (is_plain)
            from += (count++ > 0 ? ", " : "") + source(read);
        else
            fields.push_back({use, source(read)});
        if (!is_one(read.weight))
            weights.push_back({use + (is_plain ? "." + std::to_string(count) : "") + ".weight", value(read.weight)});
    }
    if (count > 0) fields.push_back({"from", std::move(from)});
    for (Field& weight : weights) fields.push_back(std::move(weight));
}

std::vector<ValueWriter::Field> ValueWriter::of_constraint(const Constraint& of) const {
    std::vector<Field> fields{{"kind", std::string(name_of(of.kind))}};
    add_sources(of, fields);
    fields.push_back({"weight", value(of.weight)});
    fields.push_back({"enabled", flag(of.enabled)});
    fields.push_back({"space", of.space == Space::local ? "local" : "final"});
    fields.push_back({"axes", axes_text(of.axes)});
    fields.push_back({"additive", flag(of.additive)});
    if (of.is_solver()) fields.push_back({"chain", std::to_string(of.chain)});
    if (of.kind == ConstraintKind::ik) fields.push_back({"orient", flag(of.orient)});
    if (of.kind == ConstraintKind::surface) fields.push_back({"align", flag(of.align)});
    if (of.kind == ConstraintKind::limit || of.channels != all_channels)
        fields.push_back({"channels", channels_text(of.channels)});
    if (of.kind == ConstraintKind::custom) {
        fields.push_back({"reads", channels_text(of.reads)});
        fields.push_back({"writes", channels_text(of.writes)});
    }
    if (of.label) fields.push_back({"label", *of.label});
    if (of.axis != Axis::unset) fields.push_back({"axis", std::string(name_of(of.axis))});
    if (of.range) fields.push_back({"range", numbers(*of.range)});
    return fields;
}

std::vector<ValueWriter::Field> ValueWriter::of_property(const Property& of) const {
    std::vector<Field> fields;
    if (of.on != none) fields.push_back({"on", bone(of.on)});
    fields.push_back({"default", number(of.initial)});
    if (of.min) fields.push_back({"min", number(*of.min)});
    if (of.max) fields.push_back({"max", number(*of.max)});
    if (of.is_driven()) fields.push_back({"value", value(*of.value)});
    std::string stops;
    for (const auto& [name, at] : of.stops) stops += (stops.empty() ? "" : ", ") + name + " = " + number(at);
    if (!of.stops.empty()) fields.push_back({"stops", std::move(stops)});
    return fields;
}

std::vector<ValueWriter::Field> ValueWriter::of_object(const Object& of) const {
    std::vector<std::string> names;
    for (const BoneId id : of.follows) names.push_back(bone(id));
    if (bones_) std::sort(names.begin(), names.end());
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
    if (names.empty()) return {};
    return {{"follows", std::move(text)}};
}

}  // namespace ligament
