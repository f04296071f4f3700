// Everything in a rig but places, as text: two rigs are equal when their texts are. Drivers stand where they drive, so that their
// numbering, which follows the file, does not matter.
#pragma once

#include <sstream>

#include "ligament/rig.hpp"

namespace ligament::testing {

class RigText {
  public:
    explicit RigText(const Rig& rig) : rig_(rig) {
        out_.precision(17);
        out_ << rig.name << "\n";
        for (const auto& [left, right] : rig.sides) out_ << "side " << left << " | " << right << "\n";
        if (rig.roots) out_ << "roots " << ids(*rig.roots) << "\n";
        for (const Property& property : rig.properties) add(property);
        for (const Object& object : rig.objects) out_ << "object " << object.name << " " << ids(object.follows) << "\n";
        for (const Bone& bone : rig.bones) add(bone);
        out_ << rig.drivers.size() << " drivers\n";
    }
    std::string text() const { return out_.str(); }

  private:
    template <class Numbers>
    static std::string ids(const Numbers& numbers) {
        std::ostringstream out;
        out.precision(17);
        out << "(";
        for (const auto& number : numbers) out << " " << number;
        out << " )";
        return out.str();
    }

    static std::string id(std::uint32_t number) { return number == none ? "-" : std::to_string(number); }

    std::string value(const Value& value) const {
        std::ostringstream out;
        out.precision(17);
        if (!value.is_driven()) {
            out << value.number;
            return out.str();
        }
        const Driver& driver = rig_.drivers.at(value.driver);
        out << "driver <" << driver.expression << ">";
        for (const auto& point : driver.curve) out << ids(point);
        for (const Input& input : driver.inputs)
            out << " " << input.name << "=" << int(input.kind) << "," << id(input.property) << "," << id(input.bone) << ","
                << id(input.other) << "," << int(input.channel) << "," << int(input.space);
        return out.str();
    }

    void add(const Property& property) {
        out_ << "property " << property.name << " on " << id(property.on) << " " << property.initial;
        if (property.min) out_ << " min " << *property.min;
        if (property.max) out_ << " max " << *property.max;
        if (property.value) out_ << " value " << value(*property.value);
        for (const auto& [name, number] : property.stops) out_ << " " << name << "=" << number;
        out_ << "\n";
    }

    void add(const Bone& bone) {
        out_ << "bone " << bone.name << " " << bone.control << bone.deform << (bone.role_is_stated ? "" : "?") << " "
             << id(bone.parent) << " <" << bone.group << "> " << int(bone.from_parent);
        if (bone.rest) out_ << " rest " << ids(bone.rest->translation) << ids(bone.rest->rotation) << ids(bone.rest->scale);
        if (bone.tip) out_ << " tip " << ids(*bone.tip);
        if (bone.curve) out_ << " curve " << bone.curve->segments << " " << id(bone.curve->start) << " " << id(bone.curve->end);
        for (const ChannelValue& channel : bone.channels)
            out_ << " " << channel_name(channel.channel) << "=" << value(channel.value);
        out_ << "\n";
        for (const Constraint& constraint : bone.constraints) add(constraint);
    }

    void add(const Constraint& c) {
        out_ << "  " << c.name << " " << name_of(c.kind) << " " << c.enabled << int(c.space) << " " << int(c.axes) << " "
             << c.additive << c.align << c.orient << " " << c.chain << " " << c.channels << " " << c.reads << " " << c.writes
             << " <" << name_of(c.axis) << "> <" << c.label.value_or({}) << "> ";
        if (c.range) out_ << ids(*c.range);
        out_ << " weight " << value(c.weight) << "\n";
        for (const Source& s : c.sources)
            out_ << "    " << int(s.use) << " " << id(s.bone) << " " << id(s.object) << " " << s.curved << " " << s.at << " "
                 << value(s.weight) << "\n";
    }

    const Rig& rig_;
    std::ostringstream out_;
};

inline std::string text_of(const Rig& rig) { return RigText(rig).text(); }

}  // namespace ligament::testing
