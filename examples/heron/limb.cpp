// How is a wing or a leg built?
#include "limb.hpp"

namespace heron {

using namespace ligament;

namespace {

std::array<BoneId, 3> add_chain(Sketch& sketch, const Side& side, const LimbPlan& plan, const std::string& ending, Role role) {
    std::array<BoneId, 3> chain{};
    BoneId parent = plan.above;
    for (std::size_t i = 0; i < 3; ++i)
        parent = chain[i] = add_bone(sketch, side.name(plan.names[i] + ending), role, parent, side.place(plan.places[i]));
    return chain;
}

// The solver sits on the second bone; the third one turns with the control that the chain reaches for.
std::array<BoneId, 3> add_ik_chain(Sketch& sketch, const Side& side, const LimbPlan& plan) {
    const auto chain = add_chain(sketch, side, plan, "_ik", Role::mechanism);
    Source target = from(plan.target), pole = from(plan.pole);
    target.use = Source::Use::target;
    pole.use = Source::Use::pole;
    constrain(sketch, chain[1], "reach", ConstraintKind::ik, {target, pole}).chain = 2;
    sketch.rig.bones[chain[2]].from_parent = position_part;
    constrain(sketch, chain[2], "turn", ConstraintKind::rotation, {from(plan.target)});
    constrain(sketch, chain[2], "size", ConstraintKind::scale, {from(plan.target)});
    return chain;
}

// The first bone hangs under the bone above the limb, so that it does not spin with it; the others take their share of the spin.
void add_twist_bones(Sketch& sketch, const Side& side, const LimbPlan& plan, Limb& limb) {
    const auto add = [&](std::size_t segment, int count, BoneId parent, double begin, double end) {
        const std::string name = plan.names[segment] + "_twist_" + std::to_string(count) + "_mech";
        return add_bone(sketch, side.name(name), Role::mechanism, parent, side.place(part_of(plan.places[segment], begin, end)));
    };
    const auto roll = [&](BoneId bone, BoneId source, double share) {
        constrain(sketch, bone, "twist", ConstraintKind::roll, {from(source)}, number(share)).axis = lengthwise;
    };
    const auto& [upper, lower, end] = limb.chain;
    limb.upper_twist[0] = add(0, 1, plan.above, 0, 0.5);
    constrain(sketch, limb.upper_twist[0], "toward", ConstraintKind::aim, {from(lower)}).axis = lengthwise;
    limb.upper_twist[1] = add(0, 2, limb.upper_twist[0], 0.5, 1);
    roll(limb.upper_twist[1], upper, 0.5);
    limb.lower_twist[0] = add(1, 1, lower, 0.5, 1);
    roll(limb.lower_twist[0], end, 0.5);
    limb.lower_twist[1] = add(1, 2, lower, 1, 1.2);
    roll(limb.lower_twist[1], end, 1);
}

}  // namespace

Limb build_limb(Sketch& sketch, const Side& side, const LimbPlan& plan) {
    const auto fk = add_chain(sketch, side, plan, "_fk", Role::control);
    const auto ik = add_ik_chain(sketch, side, plan);
    Limb limb;
    limb.chain = add_chain(sketch, side, plan, "_mech", Role::mechanism);
    for (std::size_t i = 0; i < 3; ++i) {
        constrain(sketch, limb.chain[i], "ik", ConstraintKind::transform, {from(ik[i])});
        const Value weight = expression(sketch, "mode", {read_property("mode", plan.mode)});
        constrain(sketch, limb.chain[i], "fk", ConstraintKind::transform, {from(fk[i])}, weight);
    }
    add_twist_bones(sketch, side, plan, limb);
    return limb;
}

std::array<BoneId, 3> add_limb_skin(Sketch& sketch, const Side& side, const LimbPlan& plan, const Limb& limb, BoneId parent) {
    std::array<BoneId, 3> skin{};
    for (std::size_t i = 0; i < 3; ++i) {
        skin[i] = parent = add_deform_bone(sketch, side.name(plan.names[i]), parent, limb.chain[i]);
        if (i == 2) break;
        const auto& twist = i == 0 ? limb.upper_twist : limb.lower_twist;
        add_deform_bone(sketch, side.name(plan.names[i] + "_twist_1"), skin[i], twist[0]);
        add_deform_bone(sketch, side.name(plan.names[i] + "_twist_2"), skin[i], twist[1]);
    }
    return skin;
}

void add_spaces(Sketch& sketch, BoneId control, PropertyId chooser, const std::vector<Source>& spaces) {
    std::vector<Source> sources = spaces;
    for (std::size_t i = 0; i < sources.size(); ++i) {
        const std::string text = "max(0, 1 - abs(space - " + std::to_string(i) + "))";
        sources[i].weight = expression(sketch, text, {read_property("space", chooser)});
    }
    constrain(sketch, control, "space", ConstraintKind::space, std::move(sources));
}

}  // namespace heron
