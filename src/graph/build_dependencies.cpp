// What needs what in a rig? Lists constraints, drivers and makers, wires the steps and tells the wiring at three grains.
#include "grains.hpp"
#include "numbering.hpp"
#include "wiring.hpp"

namespace ligament {

namespace {

void list_constraints(const Rig& rig, Dependencies& dependencies) {
    dependencies.first_constraint_of_bone.reserve(rig.bones.size() + 1);
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        dependencies.first_constraint_of_bone.push_back(static_cast<ConstraintId>(dependencies.constraints.size()));
        for (std::uint32_t i = 0; i < rig.bones[b].constraints.size(); ++i) {
            if (rig.bones[b].constraints[i].is_solver())
                dependencies.solvers.push_back(static_cast<ConstraintId>(dependencies.constraints.size()));
            dependencies.constraints.push_back({b, i});
        }
    }
    dependencies.first_constraint_of_bone.push_back(static_cast<ConstraintId>(dependencies.constraints.size()));
}

void list_driver_uses(const Rig& rig, Dependencies& dependencies) {
    dependencies.driver_uses.resize(rig.drivers.size());
    const auto note = [&](const Value& value, DriverUse use) {
        if (value.is_driven()) dependencies.driver_uses[value.driver] = use;
    };
    for (PropertyId p = 0; p < rig.properties.size(); ++p)
        if (rig.properties[p].value) note(*rig.properties[p].value, {DriverUse::Target::property, p, 0});
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        for (const ChannelValue& channel : rig.bones[b].channels)
            note(channel.value, {DriverUse::Target::channel, b, channel.channel});
        for (std::uint32_t i = 0; i < rig.bones[b].constraints.size(); ++i) {
            const Constraint& constraint = rig.bones[b].constraints[i];
            const ConstraintId id = dependencies.first_constraint_of_bone[b] + i;
            note(constraint.weight, {DriverUse::Target::weight, id, 0});
            for (std::uint32_t s = 0; s < constraint.sources.size(); ++s)
                note(constraint.sources[s].weight, {DriverUse::Target::source_weight, id, s});
        }
    }
}

/// In the order that the *_maker functions of wiring.hpp count on.
void list_makers(const Rig& rig, Dependencies& dependencies) {
    const auto list = [&dependencies](Maker::Kind kind, std::size_t count) {
        for (std::uint32_t i = 0; i < count; ++i) dependencies.makers.push_back({kind, i});
    };
    dependencies.makers.reserve(3 * rig.bones.size() + rig.objects.size() + dependencies.constraints.size() + rig.drivers.size());
    list(Maker::Kind::stack, rig.bones.size());
    list(Maker::Kind::parent_link, rig.bones.size());
    list(Maker::Kind::curve_handles, rig.bones.size());
    list(Maker::Kind::follows, rig.objects.size());
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id) {
        const bool solver = constraint_of(rig, dependencies, id).is_solver();
        dependencies.makers.push_back({solver ? Maker::Kind::solver : Maker::Kind::constraint, id});
    }
    list(Maker::Kind::driver, rig.drivers.size());
}

}  // namespace

MakerId stack_maker(const Rig&, BoneId bone) { return bone; }
MakerId parent_maker(const Rig& rig, BoneId child) { return static_cast<MakerId>(rig.bones.size()) + child; }
MakerId curve_maker(const Rig& rig, BoneId bone) { return static_cast<MakerId>(2 * rig.bones.size()) + bone; }
MakerId follows_maker(const Rig& rig, ObjectId object) { return static_cast<MakerId>(3 * rig.bones.size()) + object; }
MakerId constraint_maker(const Rig& rig, ConstraintId constraint) {
    return static_cast<MakerId>(3 * rig.bones.size() + rig.objects.size()) + constraint;
}
MakerId driver_maker(const Rig& rig, const Dependencies& dependencies, DriverId driver) {
    return constraint_maker(rig, static_cast<ConstraintId>(dependencies.constraints.size())) + driver;
}

Dependencies build_dependencies(const Rig& rig) {
    Dependencies dependencies;
    list_constraints(rig, dependencies);
    list_driver_uses(rig, dependencies);
    list_makers(rig, dependencies);
    const Numbering numbering = build_numbering(rig, dependencies);
    const std::vector<Need> needs = build_wiring(rig, numbering, dependencies);
    dependencies.step = build_step_graph(rig, dependencies, numbering, needs);
    dependencies.channel = build_channel_graph(dependencies.step, needs);
    dependencies.bone = build_bone_graph(rig, dependencies, numbering, needs);
    return dependencies;
}

}  // namespace ligament
