// What does a property drive, and what moves by it?
#include "view_switch_rows.hpp"

#include <algorithm>
#include <charconv>
#include <map>
#include <utility>

#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

std::string number_text(double value) {
    char buffer[32];
    return std::string(buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr);
}

std::string formula_of(const Driver& driver) {
    if (!driver.expression.empty()) return drawable(driver.expression);
    std::string text = "curve";
    for (std::size_t i = 0; i < driver.curve.size(); ++i)
        text += (i ? ", " : " through ") + number_text(driver.curve[i][0]) + ":" + number_text(driver.curve[i][1]);
    return text;
}

std::string input_text(const Rig& rig, const Input& input) {
    auto bone = [&](BoneId id) { return isolated(drawable(rig.bones[id].name)); };
    std::string text = input.name.empty() ? "of " : isolated(drawable(input.name)) + ": ";
    switch (input.kind) {
        case Input::Kind::property:
            return text + isolated(drawable(rig.properties[input.property].name));
        case Input::Kind::channel:
            return text + bone(input.bone) + " " + std::string(channel_name(input.channel)) +
                   (input.space == Space::final ? ", final" : "");
        case Input::Kind::distance:
            return text + "distance of " + bone(input.bone) + " and " + bone(input.other);
        case Input::Kind::angle:
            return text + "angle of " + bone(input.bone) + " and " + bone(input.other);
    }
    return text;
}

struct Targets {
    const Subject& subject;
    const Rig& rig = subject.rig;
    const Dependencies& dependencies = subject.dependencies;
    SwitchPlan plan{};

    /// "fk, transform, 2 of 3": which constraint of the bone's stack.
    std::string place_in_stack(ConstraintId id) const {
        const ConstraintRef& ref = dependencies.constraints[id];
        const Constraint& constraint = constraint_of(rig, dependencies, id);
        return isolated(drawable(constraint.name)) + ", " + std::string(name_of(constraint.kind)) + ", " +
               std::to_string(ref.index + 1) + " of " + std::to_string(rig.bones[ref.bone].constraints.size());
    }

    DriveTarget of_constraint(ConstraintId id) const {
        DriveTarget target;
        const BoneId bone = dependencies.constraints[id].bone;
        target.element = bone;
        target.constraint = id;
        target.name = drawable(rig.bones[bone].name);
        target.words = place_in_stack(id);
        target.hover = hover_of(subject, bone);
        return target;
    }

    std::string source_name(const DriverUse& use) const {
        const Source& source = constraint_of(rig, dependencies, use.element).sources[use.index];
        return isolated(drawable(source.bone != none ? rig.bones[source.bone].name : rig.objects[source.object].name));
    }

    DriveTarget target_of(DriverId driver) const {
        const DriverUse& use = dependencies.driver_uses[driver];
        DriveTarget target;
        switch (use.target) {
            case DriverUse::Target::weight:
                return of_constraint(use.element);
            case DriverUse::Target::source_weight:
                target = of_constraint(use.element);
                target.words += ", source " + source_name(use);
                return target;
            case DriverUse::Target::channel:
                target.element = use.element;
                target.name = drawable(rig.bones[use.element].name);
                target.words = std::string(channel_name(use.index));
                target.hover = hover_of(subject, use.element);
                return target;
            case DriverUse::Target::property:
                target.kind = DriveTarget::Kind::property;
                target.element = use.element;
                target.name = drawable(rig.properties[use.element].name);
                target.words = "its value";
                target.hover = hover_of(rig, dependencies, {VertexKind::property, use.element, 0}, nullptr);
                return target;
            case DriverUse::Target::nothing:
                break;
        }
        return target;
    }

    void add_drivers(const FanOut& fan) {
        std::vector<DriverId> drivers = fan.weights;
        drivers.insert(drivers.end(), fan.channels.begin(), fan.channels.end());
        for (PropertyId p : fan.properties)
            if (rig.properties[p].is_driven()) drivers.push_back(rig.properties[p].value->driver);
        std::sort(drivers.begin(), drivers.end());
        drivers.erase(std::unique(drivers.begin(), drivers.end()), drivers.end());
        std::map<std::pair<std::string, std::vector<std::string>>, std::size_t> card_of;
        for (DriverId id : drivers) {
            const Driver& driver = rig.drivers[id];
            std::pair<std::string, std::vector<std::string>> key{formula_of(driver), {}};
            for (const Input& input : driver.inputs)
                if (!is_said_already(input)) key.second.push_back(input_text(rig, input));
            const auto [at, is_new] = card_of.emplace(key, plan.cards.size());
            if (is_new) plan.cards.push_back({key.first, key.second, hover_of_driver(key.first, key.second, driver), {}});
            add_target(plan.cards[at->second], target_of(id));
        }
        for (const DriveCard& card : plan.cards) plan.targets += card.targets.size();
    }

    bool is_said_already(const Input& input) const {
        return input.kind == Input::Kind::property && input.property == plan.property &&
               input.name == rig.properties[plan.property].name;
    }

    /// Channels of one bone that are driven alike are told together: "scale.x, scale.y".
    static void add_target(DriveCard& card, DriveTarget target) {
        if (!card.targets.empty()) {
            DriveTarget& last = card.targets.back();
            if (last.kind == DriveTarget::Kind::bone && target.kind == last.kind && last.element == target.element &&
                last.constraint == none && target.constraint == none) {
                last.words += ", " + target.words;
                return;
            }
        }
        card.targets.push_back(std::move(target));
    }

    static std::string hover_of_driver(const std::string& formula, const std::vector<std::string>& inputs, const Driver& driver) {
        std::string text = isolated(formula) + "\ndriver" + at_place(driver.place);
        for (const std::string& input : inputs) text += "\n" + input;
        return text;
    }

    /// Behind the nearest member of its run that stands before it in the file, else before the first.
    void add_gap(const SwitchGap& gap) {
        DriveTarget target = of_constraint(gap.constraint);
        target.kind = DriveTarget::Kind::gap;
        target.element = gap.bone;
        target.words += ", not driven";
        target.hover += "\ngap: left out of a run in which " + number_of(gap.gated_count, "bone") + " have this weight driven";
        if (plan.cards.empty()) return;  // a switch that gates others has a driver
        DriveCard* best_card = nullptr;
        std::size_t place = 0;
        BoneId before = none;
        for (DriveCard& card : plan.cards)
            for (std::size_t i = 0; i < card.targets.size(); ++i) {
                const DriveTarget& member = card.targets[i];
                if (member.kind != DriveTarget::Kind::bone || !is_alike(member, gap)) continue;
                const bool is_nearer = member.element < gap.bone && (before == none || before < member.element);
                if (best_card && !is_nearer) continue;
                best_card = &card;
                place = member.element < gap.bone ? i + 1 : i;
                before = member.element < gap.bone ? member.element : none;
            }
        if (!best_card) best_card = &plan.cards.back(), place = best_card->targets.size();
        best_card->targets.insert(best_card->targets.begin() + static_cast<std::ptrdiff_t>(place), std::move(target));
        ++plan.gaps;
    }

    bool is_alike(const DriveTarget& member, const SwitchGap& gap) const {
        if (member.constraint == none) return false;
        if (std::find(gap.gated.begin(), gap.gated.end(), member.element) == gap.gated.end()) return false;
        return constraint_of(rig, dependencies, member.constraint).kind == constraint_of(rig, dependencies, gap.constraint).kind;
    }

    /// Weights and channels of one group that are alike are told as one; gaps and properties stay.
    void fold_by_group() {
        plan.is_folded = true;
        for (DriveCard& card : plan.cards) {
            std::vector<DriveTarget> folded;
            std::vector<std::vector<const DriveTarget*>> members;
            std::map<std::pair<std::uint32_t, std::string>, std::size_t> place_of;
            for (const DriveTarget& target : card.targets) {
                if (target.kind != DriveTarget::Kind::bone) {
                    folded.push_back(target), members.emplace_back();
                    continue;
                }
                const std::uint32_t group = subject.group_of[target.element];
                const auto [at, is_new] = place_of.emplace(std::pair{group, what_of(target)}, folded.size());
                if (is_new) {
                    folded.push_back({DriveTarget::Kind::folded, group, none, {}, what_of(target), {}});
                    members.emplace_back();
                }
                members[at->second].push_back(&target);
            }
            for (std::size_t i = 0; i < folded.size(); ++i)
                if (!members[i].empty()) tell_folded(folded[i], members[i]);
            card.targets = std::move(folded);
        }
    }

    /// What folded targets have in common: the kind of constraint, or the channel.
    std::string what_of(const DriveTarget& target) const {
        if (target.constraint == none) return target.words;
        return std::string(name_of(constraint_of(rig, dependencies, target.constraint).kind));
    }

    void tell_folded(DriveTarget& target, const std::vector<const DriveTarget*>& members) const {
        constexpr std::size_t most_told = 40;
        const std::string& group = subject.groups[target.element];
        target.name = group.empty() ? "no group" : drawable(group);
        target.hover = isolated(target.name) + "\n" + number_of(members.size(), "target") + ", " + target.words;
        for (std::size_t i = 0; i < members.size() && i < most_told; ++i)
            target.hover += "\n" + isolated(members[i]->name) + ": " + members[i]->words;
        if (members.size() > most_told) target.hover += "\nand " + std::to_string(members.size() - most_told) + " more";
        target.words += " \u00d7" + std::to_string(members.size());
    }

    void add_moved() {
        std::vector<std::uint32_t> place_of(subject.groups.size(), none);
        for (BoneId bone : find_bones_moved(rig, dependencies, plan.property)) {
            std::uint32_t& place = place_of[subject.group_of[bone]];
            if (place == none) {
                place = static_cast<std::uint32_t>(plan.moved.size());
                plan.moved.push_back({subject.group_of[bone], {}, {}});
            }
            plan.moved[place].bones.push_back(bone);
            ++plan.bones_moved;
            if (!rig.bones[bone].deform) continue;
            plan.moved[place].deform.push_back(bone);
            ++plan.deform_moved;
        }
    }
};

}  // namespace

SwitchPlan plan_targets(const Subject& subject, PropertyId property) {
    Targets targets{.subject = subject};
    SwitchPlan& plan = targets.plan;
    const FanOut& fan = subject.facts.fan_out[property];
    plan.property = property;
    plan.weights = fan.weights.size(), plan.channels = fan.channels.size(), plan.properties = fan.properties.size();
    plan.constraints = fan.constraints.size();
    targets.add_drivers(fan);
    for (const SwitchGap& gap : subject.facts.switches.gaps)
        if (gap.property == property) targets.add_gap(gap);
    if (plan.targets > most_targets_named) targets.fold_by_group();
    targets.add_moved();
    return std::move(targets.plan);
}

}  // namespace ligament
