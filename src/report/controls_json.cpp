// Whom does each control move, for a program to read? Format "rig-controls", version 1.
#include "json_rows.hpp"

namespace ligament {

namespace {

using namespace json_rows;

void write_control(JsonOut& out, const Rig& rig, const ControlReach& reach) {
    const Bone& bone = rig.bones[reach.control];
    Fields row(out);
    row.text("control", bone.name);
    row.number("moves", reach.moves);
    row.number("only_through", reach.only_through);
    row.number("alone", reach.alone);
    row.number("line", bone.place.line);
    row.number("column", bone.place.column);
}

void write_points(JsonOut& out, const Rig& rig, const ControlPoints& points, bool are_listed) {
    Fields row(out);
    row.text("bone", rig.bones[points.bone].name);
    row.truth("moved", points.is_moved);
    if (are_listed) row.names("single_points", rig, points.single_points);
    if (points.only_mover != none) row.text("only_mover", rig.bones[points.only_mover].name);
}

}  // namespace

void write_controls_json(std::ostream& stream, const ControlsReport& report, const ControlFacts& facts) {
    JsonOut out(stream);
    write_head(out, "rig-controls", report.rig, report.source, "state", report.state_name);
    out << ",\n  \"controls\": ";
    write_rows(out, facts.controls.size(), 2, [&](std::size_t i) { write_control(out, report.rig, facts.controls[i]); });
    out << ",\n  \"deform\": ";
    write_rows(out, facts.deform.size(), 2,
               [&](std::size_t i) { write_points(out, report.rig, facts.deform[i], facts.are_listed); });
    out << "\n}\n";
    out.finish();
}

void write_moved_bones_json(std::ostream& stream, const ControlsReport& report, BoneId control, const MovedBones& moved) {
    JsonOut out(stream);
    const auto count = [](const std::vector<BoneId>& bones) { return static_cast<std::uint32_t>(bones.size()); };
    write_head(out, "rig-controls", report.rig, report.source, "state", report.state_name);
    out << ",\n  \"controls\": ";
    write_rows(out, 1, 2, [&](std::size_t) {
        write_control(out, report.rig, {control, count(moved.moves), count(moved.only_through), count(moved.alone)});
    });
    out << ",\n  \"bones\": {\n    \"moves\": ";
    write_names(out, report.rig, moved.moves);
    out << ",\n    \"only_through\": ";
    write_names(out, report.rig, moved.only_through);
    out << ",\n    \"alone\": ";
    write_names(out, report.rig, moved.alone);
    out << "\n  }\n}\n";
    out.finish();
}

}  // namespace ligament
