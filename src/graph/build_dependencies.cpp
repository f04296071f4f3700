// What needs what in a rig? Lists constraints, drivers and makers, wires the steps and tells the wiring at the grains.
#include <array>
#include <functional>
#include <optional>

#include "grains.hpp"
#include "numbering.hpp"
#include "side_by_side.hpp"
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

/// Those of the constraints, then those of sources whose weight is not just 1, in the order of the steps that they belong to.
void list_gates(const Rig& rig, const Numbering& numbering, Dependencies& dependencies) {
    std::vector<Gate>& gates = dependencies.gates;
    gates.reserve(dependencies.constraints.size() + 1);
    gates.push_back({});
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id)
        gates.push_back({id, none, constraint_of(rig, dependencies, id).is_inert()});
    const auto list = [&](ConstraintId id) {
        const Constraint& constraint = constraint_of(rig, dependencies, id);
        for (std::uint32_t i = 0; i < constraint.sources.size(); ++i) {
            const Value& weight = constraint.sources[i].weight;
            if (!weight.is_driven() && weight.number >= 1 - 1e-9) continue;
            const bool off = !weight.is_driven() && weight.number <= 1e-9;
            gates.push_back({id, i, constraint.is_inert() || off});
        }
    };
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        for (const bool leads : {true, false})
            for (ConstraintId id = dependencies.first_constraint_of_bone[b]; id < dependencies.first_constraint_of_bone[b + 1];
                 ++id)
                if (!constraint_of(rig, dependencies, id).is_solver() && (numbering.step_of[id] < numbering.local(b)) == leads)
                    list(id);
    for (ConstraintId solver : dependencies.solvers) list(solver);
}

/// With two threads each grain is wired by itself: the needs come twice, but building takes 84 ms at 100,000 bones, instead of
/// 115.
void wire_grains(const Rig& rig, const Numbering& numbering, Dependencies& dependencies, unsigned workers) {
    std::optional<FinerGrain> motion;
    std::optional<BoneGrain> bone;
    const auto wire_into = [&](const std::function<void(std::span<const Need>)>& use) {
        wire(rig, numbering, dependencies, {}, use);
    };
    const auto wire_motion = [&] {
        motion.emplace(rig, dependencies, numbering, FinerGrain::Split::motion);
        if (workers > 1) wire_into([&](std::span<const Need> needs) { motion->add(needs); });
    };
    const auto wire_bone = [&] {
        bone.emplace(rig, dependencies, numbering);
        if (workers > 1) wire_into([&](std::span<const Need> needs) { bone->add(needs); });
    };
    const std::array<std::function<void()>, 2> works{wire_motion, wire_bone};
    do_side_by_side(works, workers);
    if (workers == 1)
        wire_into([&](std::span<const Need> needs) {
            bone->add(needs);
            motion->add(needs);
        });
    dependencies.step_size = {numbering.end, motion->step_edges()};
    dependencies.channel_size = {count_channel_vertices(rig, numbering), motion->channel_edges()};
    dependencies.bone = bone->finish();
    dependencies.motion = motion->finish();
    dependencies.step_only = motion->take_step_only();
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

Dependencies build_dependencies(const Rig& rig, unsigned workers) {
    workers = workers_that_pay(rig.bones.size(), workers);
    Dependencies dependencies;
    list_constraints(rig, dependencies);
    Numbering numbering;
    const auto list_uses_and_makers = [&] {
        list_driver_uses(rig, dependencies);
        list_makers(rig, dependencies);
    };
    const auto number_and_list_gates = [&] {
        numbering = build_numbering(rig, dependencies);
        list_gates(rig, numbering, dependencies);
    };
    const std::array<std::function<void()>, 2> lists{list_uses_and_makers, number_and_list_gates};
    do_side_by_side(lists, workers);
    wire_grains(rig, numbering, dependencies, workers);
    const auto late = [](FinerGrain::Split split) {
        return LateGraph([split](const Rig& of, const Dependencies& with, std::span<const std::uint8_t> marked) {
            return build_finer_graph(of, with, split, marked);
        });
    };
    dependencies.step = late(FinerGrain::Split::step);
    dependencies.channel = late(FinerGrain::Split::channel);
    return dependencies;
}

}  // namespace ligament
