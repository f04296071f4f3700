// A rig from text, judged and drawn, for tests of drawings.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <utility>

#include "ligament/drawing.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

/// A rig with all that a drawing reads of it.
struct Judged {
    Rig rig;
    Dependencies dependencies;
    Facts facts;

    explicit Judged(Rig of) : rig(std::move(of)), dependencies(build_dependencies(rig)), facts(find_facts(rig, dependencies)) {}
    explicit Judged(std::string_view bones, std::string_view rest = {}) : Judged(tiny_rig(bones, rest)) {}

    Drawing drawn(const DrawingOptions& options = {}) const { return draw(rig, dependencies, facts, options); }
    /// The only page of the view of bones; "" and a failure where there is not one page.
    std::string bones() const {
        DrawingOptions options;
        options.view = View::group;
        const Drawing drawing = drawn(options);
        EXPECT_EQ(drawing.error, "");
        EXPECT_EQ(drawing.pages.size(), 1u);
        return drawing.pages.size() == 1 ? drawing.pages[0].svg : std::string();
    }
};

inline std::size_t count_of(std::string_view text, std::string_view part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != text.npos; at = text.find(part, at + part.size())) ++count;
    return count;
}

inline bool holds(std::string_view text, std::string_view part) { return text.find(part) != text.npos; }

/// A wading bird's leg as riggers build it: FK, IK and blended mechanism chains, a switch, deform bones and a skin, `legs` times.
inline Rig rig_of_legs(unsigned legs, unsigned joints) {
    Rig rig;
    rig.name = "legs";
    auto bone = [&](std::string name, bool control, bool deform, BoneId parent, const std::string& group) {
        Bone& made = rig.bones.emplace_back();
        made.name = std::move(name), made.control = control, made.deform = deform, made.parent = parent, made.group = group;
        return static_cast<BoneId>(rig.bones.size() - 1);
    };
    auto constrain = [&](BoneId owner, ConstraintKind kind, BoneId source) -> Constraint& {
        Constraint& made = rig.bones[owner].constraints.emplace_back();
        made.name = std::string(name_of(kind)) + std::to_string(rig.bones[owner].constraints.size());
        made.kind = kind;
        made.sources.emplace_back().bone = source;
        return made;
    };
    const BoneId world = bone("world", true, false, none, "root"), body = bone("body", true, false, world, "root");
    rig.objects.push_back({"skin", {}, {}});
    for (unsigned leg = 0; leg < legs; ++leg) {
        const std::string group = "leg_" + std::to_string(leg);
        const auto mode = static_cast<PropertyId>(rig.properties.size());
        rig.properties.emplace_back().name = "mode_" + std::to_string(leg);
        rig.properties.back().on = world;
        const BoneId foot = bone(group + "_foot_ctl", true, false, world, group);
        BoneId fk = body, ik = body, mech = body, deform = none;
        for (unsigned i = 0; i < joints; ++i) {
            const std::string name = group + "_" + std::to_string(i);
            fk = bone(name + "_fk", true, false, fk, group);
            ik = bone(name + "_ik", false, false, ik, group);
            mech = bone(name + "_mech", false, false, mech, group);
            deform = bone(name, false, true, deform, group);
            constrain(mech, ConstraintKind::transform, ik);
            Constraint& blend = constrain(mech, ConstraintKind::transform, fk);
            blend.weight.driver = static_cast<DriverId>(rig.drivers.size());
            Driver& driver = rig.drivers.emplace_back();
            driver.expression = "s";
            driver.inputs.push_back({.name = "s", .property = mode, .place = {}});
            constrain(deform, ConstraintKind::transform, mech);
            rig.objects[0].follows.push_back(deform);
        }
        Constraint& reach = rig.bones[ik].constraints.emplace_back();
        reach.name = "reach", reach.kind = ConstraintKind::ik, reach.chain = joints;
        reach.sources.emplace_back().bone = foot;
        reach.sources.back().use = Source::Use::target;
    }
    return rig;
}

}  // namespace ligament::testing
