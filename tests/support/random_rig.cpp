#include "random_rig.hpp"

#include <array>

namespace ligament::testing {

namespace {

struct Maker {
    Random random;
    Rig rig;
    bool circular = false;

    bool chance(unsigned percent) { return random.below(100) < percent; }

    /// A bone before `limit`, or any bone where the rig may be circular.
    BoneId bone_before(BoneId limit) {
        const auto bones = static_cast<unsigned>(rig.bones.size());
        return circular && chance(15) ? random.below(bones) : random.below(limit);
    }

    Input property_input(const char* name) {
        Input input;
        input.name = name;
        input.property = random.below(static_cast<unsigned>(rig.properties.size()));
        return input;
    }

    Value driven(Driver driver) {
        rig.drivers.push_back(std::move(driver));
        Value value;
        value.driver = static_cast<DriverId>(rig.drivers.size() - 1);
        return value;
    }

    Value driven_by_properties() {
        static constexpr std::array expressions{"a",         "a",       "1 - a", "a * b", "1 - a * b",
                                                "max(a, b)", "a > 0.5", "1 / a", "a / 2", "a - b"};
        Driver driver;
        driver.expression = expressions[random.below(expressions.size())];
        driver.inputs = {property_input("a"), property_input("b")};
        return driven(std::move(driver));
    }

    Value driven_by_bone(BoneId limit) {
        Driver driver;
        driver.expression = "a";
        Input input;
        input.name = "a";
        input.kind = Input::Kind::channel;
        input.bone = bone_before(limit);
        input.channel = static_cast<std::uint8_t>(random.below(9));
        input.space = chance(50) ? Space::local : Space::final;
        driver.inputs.push_back(input);
        return driven(std::move(driver));
    }

    Value weight(BoneId limit) {
        if (chance(55)) return driven_by_properties();
        if (chance(10)) return driven_by_bone(limit);
        static constexpr std::array numbers{1.0, 1.0, 1.0, 0.5, 0.0};
        Value value;
        value.number = numbers[random.below(numbers.size())];
        return value;
    }

    void add_constraint(BoneId bone) {
        static constexpr std::array kinds{ConstraintKind::transform, ConstraintKind::transform, ConstraintKind::transform,
                                          ConstraintKind::position,  ConstraintKind::rotation,  ConstraintKind::aim,
                                          ConstraintKind::space,     ConstraintKind::ik};
        Constraint constraint;
        constraint.kind = kinds[random.below(kinds.size())];
        constraint.name = "c" + std::to_string(rig.bones[bone].constraints.size());
        constraint.weight = weight(bone);
        constraint.enabled = !chance(5);
        constraint.additive = chance(10);
        constraint.space = chance(20) ? Space::local : Space::final;
        const unsigned sources = constraint.kind == ConstraintKind::space ? 1 + random.below(2) : 1;
        for (unsigned i = 0; i < sources; ++i) {
            Source source;
            source.bone = bone_before(bone);
            if (constraint.kind == ConstraintKind::space && chance(60)) source.weight = driven_by_properties();
            constraint.sources.push_back(source);
        }
        if (constraint.kind == ConstraintKind::ik) {
            constraint.chain = 1 + random.below(3);
            constraint.sources.front().use = Source::Use::target;
        }
        rig.bones[bone].constraints.push_back(constraint);
    }

    void add_properties() {
        const unsigned count = 1 + random.below(4);
        for (unsigned p = 0; p < count; ++p) {
            Property property;
            property.name = "p" + std::to_string(p);
            property.initial = random.below(2);
            if (chance(30)) property.stops = {{"off", 0.0}, {"half", 0.5}, {"on", 1.0}};
            if (chance(30)) property.on = random.below(static_cast<unsigned>(rig.bones.size()));
            rig.properties.push_back(property);
        }
        if (!chance(40)) return;
        Property property;
        property.name = "driven";
        property.max = 1.0;
        property.value = driven_by_properties();
        rig.properties.push_back(property);
    }

    void add_bone(BoneId b) {
        Bone& bone = rig.bones[b];
        const unsigned role = random.below(10);
        bone.control = b == 0 || role < 3;
        bone.deform = role > 5;
        if (b > 0 && !chance(10)) bone.parent = random.below(b);
        if (chance(10)) bone.from_parent = static_cast<Parts>(random.below(8));
        if (chance(10)) {
            ChannelValue channel;
            channel.channel = static_cast<std::uint8_t>(random.below(9));
            channel.value = chance(50) || b == 0 ? driven_by_properties() : driven_by_bone(b);
            bone.channels.push_back(channel);
        }
        if (b > 0)
            for (unsigned count = random.below(4); count > 0; --count) add_constraint(b);
    }
};

}  // namespace

Rig random_rig(unsigned seed) {
    Maker maker{Random(seed), {}, false};
    Rig& rig = maker.rig;
    rig.name = "random " + std::to_string(seed);
    maker.circular = maker.chance(30);
    rig.bones.resize(4 + maker.random.below(12));
    for (BoneId b = 0; b < rig.bones.size(); ++b) rig.bones[b].name = "b" + std::to_string(b);
    maker.add_properties();
    for (BoneId b = 0; b < rig.bones.size(); ++b) maker.add_bone(b);
    if (maker.chance(40)) rig.roots = std::vector<BoneId>{0};
    return std::move(rig);
}

}  // namespace ligament::testing
