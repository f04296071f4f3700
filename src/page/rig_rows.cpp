// How does the rig itself get into a page?
#include <algorithm>
#include <map>

#include "motion.hpp"
#include "number.hpp"
#include "page_rows.hpp"

namespace ligament::page_rows {

namespace {

Row place_row(Place place) { return Row::array({place.line, place.column}); }

/// A number, [driver], or for what is at its default of 1 null.
Row value_row(const Value& value) {
    if (value.is_driven()) return Row::array({value.driver});
    return value.number == 1.0 ? Row(nullptr) : Row(value.number);
}

std::string_view use_word(Source::Use use) {
    switch (use) {
        case Source::Use::from:
            return "from";
        case Source::Use::up:
            return "up";
        case Source::Use::target:
            return "target";
        case Source::Use::pole:
            return "pole";
    }
    return "";
}

Row source_row(const Source& source) {
    Row row{{"use", use_word(source.use)}};
    if (source.bone != none) row["bone"] = source.bone;
    if (source.object != none) row["object"] = source.object;
    if (source.at != 0.0) row["at"] = source.at;
    if (source.curved) row["curved"] = true;
    if (Row weight = value_row(source.weight); !weight.is_null()) row["weight"] = std::move(weight);
    return row;
}

std::string channel_words(Channels channels) {
    std::string words;
    for (unsigned part = 0; part < 3; ++part) {
        const auto of_part = static_cast<Channels>(0b111u << (3 * part));
        for (unsigned c = 3 * part; c < 3 * part + 3; ++c) {
            if (!(static_cast<unsigned>(channels) >> c & 1u)) continue;
            const bool is_whole = (channels & of_part) == of_part;
            const std::string_view name = channel_name(c);
            words += (words.empty() ? "" : ", ") + std::string(is_whole ? name.substr(0, name.find('.')) : name);
            if (is_whole) break;
        }
    }
    return words;
}

std::string axes_word(std::uint8_t axes) {
    std::string word;
    for (unsigned a = 0; a < 3; ++a)
        if (static_cast<unsigned>(axes) >> a & 1u) word += "xyz"[a];
    return word;
}

/// What a constraint does beyond its kind, with the words of the rig description.
std::string manner_of(const Constraint& constraint) {
    std::vector<std::string> words;
    if (constraint.space == Space::local) words.emplace_back("space local");
    if (constraint.axes != 0b111) words.push_back("axes " + axes_word(constraint.axes));
    if (constraint.axis != Axis::unset) words.push_back("axis " + std::string(name_of(constraint.axis)));
    if (constraint.chain > 0) words.push_back("chain of " + std::to_string(constraint.chain));
    if (constraint.additive) words.emplace_back("additive");
    if (constraint.align) words.emplace_back("align");
    if (constraint.orient) words.emplace_back("orient");
    if (constraint.channels != all_channels) words.push_back("channels " + channel_words(constraint.channels));
    if (constraint.kind == ConstraintKind::custom) {
        if (constraint.label) words.push_back(*constraint.label);
        words.push_back("reads " + channel_words(constraint.reads));
        words.push_back("writes " + channel_words(constraint.writes));
    }
    if (constraint.range)
        words.push_back("range " + number_text((*constraint.range)[0]) + " to " + number_text((*constraint.range)[1]));
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : "; ") + word;
    return printable(text);
}

std::string input_words(const Rig& rig, const Input& input) {
    auto bone = [&](BoneId id) { return id == none ? std::string("?") : rig.bones[id].name; };
    switch (input.kind) {
        case Input::Kind::property:
            return "property " + rig.properties[input.property].name;
        case Input::Kind::channel:
            return std::string(channel_name(input.channel)) + (input.space == Space::local ? " (local) of " : " (final) of ") +
                   bone(input.bone);
        case Input::Kind::distance:
            return "distance from " + bone(input.bone) + " to " + bone(input.other);
        case Input::Kind::angle:
            return "angle between " + bone(input.bone) + " and " + bone(input.other);
    }
    return "";
}

std::string driver_words(const Rig& rig, const Driver& driver) {
    std::string words = driver.expression;
    if (driver.expression.empty()) {
        words = "curve through";
        for (const auto& [x, y] : driver.curve) words += " (" + number_text(x) + ", " + number_text(y) + ")";
    }
    std::string inputs;
    for (const Input& input : driver.inputs) {
        inputs += inputs.empty() ? (driver.expression.empty() ? " over " : ", where ") : ", ";
        if (!input.name.empty()) inputs += input.name + " is ";
        inputs += input_words(rig, input);
    }
    return printable(words + inputs);
}

}  // namespace

Row bones_row(const Rig& rig) {
    std::map<std::string_view, std::int64_t> place_of_group;
    const std::vector<std::string> groups = group_names(rig);
    for (std::size_t g = 0; g < groups.size(); ++g) place_of_group.emplace(groups[g], g);
    Row names = Row::array(), roles = Row::array(), parents = Row::array(), places = Row::array();
    std::vector<std::int64_t> group_of;
    for (const Bone& bone : rig.bones) {
        names.push_back(printable(bone.name));
        roles.push_back((bone.control ? 1 : 0) + (bone.deform ? 2 : 0));
        parents.push_back(id_or_none(bone.parent));
        const auto at = place_of_group.find(bone.group);
        group_of.push_back(at == place_of_group.end() ? -1 : at->second);
        places.push_back(bone.place.line);
        places.push_back(bone.place.column);
    }
    return {{"name", std::move(names)},
            {"role", std::move(roles)},
            {"parent", std::move(parents)},
            {"group", runs(group_of)},
            {"place", std::move(places)}};
}

Row properties_row(const Rig& rig) {
    Row rows = Row::array();
    for (const Property& property : rig.properties) {
        Row row{{"name", printable(property.name)}, {"on", id_or_none(property.on)}, {"place", place_row(property.place)}};
        if (property.is_driven())
            row["driver"] = property.value->driver;
        else
            row["default"] = property.initial;
        if (property.min) row["min"] = *property.min;
        if (property.max) row["max"] = *property.max;
        for (const auto& [name, value] : property.stops) row["stops"].push_back(Row::array({printable(name), value}));
        rows.push_back(std::move(row));
    }
    return rows;
}

Row objects_row(const Rig& rig) {
    Row rows = Row::array();
    for (const Object& object : rig.objects)
        rows.push_back({{"name", printable(object.name)}, {"follows", ids(object.follows)}, {"place", place_row(object.place)}});
    return rows;
}

Row drivers_row(const Rig& rig, const Dependencies& dependencies) {
    std::vector<Row> rows(rig.drivers.size());
    for (MakerId m = 0; m < dependencies.makers.size(); ++m) {
        const Maker& maker = dependencies.makers[m];
        if (maker.kind != Maker::Kind::driver) continue;
        const Driver& driver = rig.drivers[maker.element];
        rows[maker.element] = Row::array(
            {printable(name_of(rig, dependencies, m)), driver_words(rig, driver), driver.place.line, driver.place.column});
    }
    return rows;
}

Row constraints_row(const Rig& rig, const Dependencies& dependencies, const State& state) {
    const Evaluation evaluation = evaluate(rig, dependencies, state);
    Row rows = Row::array();
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id) {
        const Constraint& constraint = constraint_of(rig, dependencies, id);
        Row row{{"bone", dependencies.constraints[id].bone},
                {"name", printable(constraint.name)},
                {"kind", name_of(constraint.kind)},
                {"place", place_row(constraint.place)}};
        if (!constraint.enabled) row["disabled"] = true;
        if (std::string manner = manner_of(constraint); !manner.empty()) row["manner"] = std::move(manner);
        if (Row weight = value_row(constraint.weight); !weight.is_null()) row["weight"] = std::move(weight);
        for (const Source& source : constraint.sources) row["sources"].push_back(source_row(source));
        if (const Parts replaced = replaced_by(rig, dependencies, id, evaluation); replaced != 0) row["replaced"] = replaced;
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace ligament::page_rows
