#include "comparison_names.hpp"

namespace ligament {

namespace {

struct Side {
    const Report& report;
    std::uint32_t id;
};

Side side_of(const ComparisonReport& report, const Change& change, bool before) {
    return before ? Side{report.before, change.before} : Side{report.after, change.after};
}

}  // namespace

std::string element_name(const ComparisonReport& report, const Change& change, bool before) {
    const auto [side, id] = side_of(report, change, before);
    if (id == none) return {};
    switch (change.element) {
        case Element::rig:
            return side.rig.name;
        case Element::group: {
            const auto& names = report.comparison.matching.groups[id];
            return before ? names.first : names.second;
        }
        case Element::property:
            return side.rig.properties[id].name;
        case Element::object:
            return side.rig.objects[id].name;
        case Element::bone:
            return side.rig.bones[id].name;
        case Element::constraint:
            break;
    }
    return constraint_name(side.rig, side.dependencies, id);
}

Place element_place(const ComparisonReport& report, const Change& change, bool before) {
    const auto [side, id] = side_of(report, change, before);
    if (id == none) return {};
    switch (change.element) {
        case Element::rig:
        case Element::group:
            return {};
        case Element::property:
            return side.rig.properties[id].place;
        case Element::object:
            return side.rig.objects[id].place;
        case Element::bone:
            return side.rig.bones[id].place;
        case Element::constraint:
            break;
    }
    return constraint_of(side.rig, side.dependencies, id).place;
}

std::string group_of(const ComparisonReport& report, const Change& change) {
    const auto [side, id] = side_of(report, change, change.is_removed());
    BoneId bone = none;
    if (change.element == Element::bone) bone = id;
    if (change.element == Element::constraint) bone = side.dependencies.constraints[id].bone;
    if (change.element == Element::property) bone = side.rig.properties[id].on;
    return bone == none ? std::string() : side.rig.bones[bone].group;
}

}  // namespace ligament
