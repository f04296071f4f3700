// Whom does each control move, for a program to read? Format "rig-controls", version 1.
#include "json_rows.hpp"

namespace ligament {

namespace {

using namespace json_rows;

Row control_row(const Rig& rig, const ControlReach& reach) {
    const Bone& bone = rig.bones[reach.control];
    return {{"control", bone.name}, {"moves", reach.moves},    {"only_through", reach.only_through},
            {"alone", reach.alone}, {"line", bone.place.line}, {"column", bone.place.column}};
}

Row points_row(const Rig& rig, const ControlPoints& points, bool are_listed) {
    Row row{{"bone", rig.bones[points.bone].name}, {"moved", points.is_moved}};
    if (are_listed) row["single_points"] = names_of(rig, points.single_points);
    if (points.only_mover != none) row["only_mover"] = rig.bones[points.only_mover].name;
    return row;
}

}  // namespace

void write_controls_json(std::ostream& out, const ControlsReport& report, const ControlFacts& facts) {
    write_head(out, "rig-controls", report.rig, report.source, "state", report.state_name);
    out << ",\n  \"controls\": ";
    write_rows(out, facts.controls.size(), 2, [&](std::size_t i) { out << text_of(control_row(report.rig, facts.controls[i])); });
    out << ",\n  \"deform\": ";
    write_rows(out, facts.deform.size(), 2,
               [&](std::size_t i) { out << text_of(points_row(report.rig, facts.deform[i], facts.are_listed)); });
    out << "\n}\n";
}

void write_moved_bones_json(std::ostream& out, const ControlsReport& report, BoneId control, const MovedBones& moved) {
    const auto count = [](const std::vector<BoneId>& bones) { return static_cast<std::uint32_t>(bones.size()); };
    write_head(out, "rig-controls", report.rig, report.source, "state", report.state_name);
    out << ",\n  \"controls\": ";
    write_rows(out, 1, 2, [&](std::size_t) {
        out << text_of(control_row(report.rig, {control, count(moved.moves), count(moved.only_through), count(moved.alone)}));
    });
    out << ",\n  \"bones\": {\n    \"moves\": ";
    write_names(out, report.rig, moved.moves);
    out << ",\n    \"only_through\": ";
    write_names(out, report.rig, moved.only_through);
    out << ",\n    \"alone\": ";
    write_names(out, report.rig, moved.alone);
    out << "\n  }\n}\n";
}

}  // namespace ligament
