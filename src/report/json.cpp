// What does a program get to read? The report as JSON: format "rig-report", version 1. Keys may be added, never renamed or
// dropped.
#include <algorithm>

#include "cycle_rows.hpp"
#include "order_rows.hpp"
#include "state_rows.hpp"

namespace ligament {

namespace {

using namespace json_rows;

std::size_t count_bones(const Rig& rig, bool (*counts)(const Bone&)) {
    return static_cast<std::size_t>(std::count_if(rig.bones.begin(), rig.bones.end(), counts));
}

Row counts_row(const Report& report) {
    const Rig& rig = report.rig;
    const Dependencies& dependencies = report.dependencies;
    Row vertices, edges;
    for (Grain grain : {Grain::bone, Grain::step, Grain::channel}) {
        vertices[std::string(name_of(grain))] = dependencies.size_at(grain).vertices;
        edges[std::string(name_of(grain))] = dependencies.size_at(grain).edges;
    }
    return {{"bones", rig.bones.size()},
            {"deform", count_bones(rig, [](const Bone& bone) { return bone.deform; })},
            {"controls", count_bones(rig, [](const Bone& bone) { return bone.control; })},
            {"mechanism", count_bones(rig, [](const Bone& bone) { return bone.is_mechanism(); })},
            {"constraints", dependencies.constraints.size()},
            {"drivers", rig.drivers.size()},
            {"properties", rig.properties.size()},
            {"objects", rig.objects.size()},
            {"vertices", std::move(vertices)},
            {"edges", std::move(edges)}};
}

// What gets worse, and where, is told beside verdicts of the default state only.
void write_attachment(JsonOut& out, const Report& report, std::size_t place) {
    const Attachment& attachment = report.facts.attachment.deform[place];
    Fields row(out);
    row.text("bone", report.rig.bones[attachment.bone].name);
    row.text("verdict", name_of(attachment.verdict));
    if (report.facts.attachment.controls_listed) row.names("controls", report.rig, attachment.controls);
    if (report.facts.is_default_state && place < report.facts.switches.worse.size()) write_worse(row, out, report, place);
}

void write_fan_out(JsonOut& out, const Report& report, const FanOut& fan_out) {
    Fields row(out);
    row.text("property", report.rig.properties[fan_out.property].name);
    row.number("weights", fan_out.weights.size());
    row.number("channels", fan_out.channels.size());
    row.number("properties", fan_out.properties.size());
    row.list("constraints", fan_out.constraints,
             [&](ConstraintId id) { out.write_string(constraint_name(report.rig, report.dependencies, id)); });
    row.number("bones_moved", fan_out.bones_moved);
}

void write_finding_fields(Fields& row, JsonOut& out, const Report& report, const Finding& finding) {
    row.text("check", finding.check);
    row.text("severity", name_of(finding.severity));
    row.text("message", finding.message);
    row.text("hint", finding.hint);
    row.names("bones", report.rig, finding.bones);
    if (!finding.subject.empty()) row.text("subject", finding.subject);
    if (!finding.maker.empty()) row.text("maker", finding.maker);
    if (!finding.differences.empty())
        row.list("differences", finding.differences, [&](const Difference& difference) {
            Fields one(out);
            one.text("what", difference.what);
            one.text("left", difference.left);
            one.text("right", difference.right);
        });
    row.number("line", finding.place.line);
    row.number("column", finding.place.column);
    if (!finding.pointer.empty()) row.text("pointer", finding.pointer);
}

void write_finding(JsonOut& out, const Report& report, const Finding& finding) {
    Fields row(out);
    write_finding_fields(row, out, report, finding);
}

void write_accepted(JsonOut& out, const Report& report, const SetAside& set_aside) {
    Fields row(out);
    write_finding_fields(row, out, report, set_aside.finding);
    row.text("reason", set_aside.reason);
}

void write_gone(JsonOut& out, const Identity& identity) {
    Fields row(out);
    row.text("check", identity.check);
    row.list("bones", identity.bones, [&](const std::string& bone) { out.write_string(bone); });
    row.text("subject", identity.subject);
    row.text("maker", identity.maker);
}

void write_order(JsonOut& out, const Report& report) {
    const Order& order = report.facts.order;
    out << "{\n    \"bones\": ";
    write_names(out, report.rig, order.bones);
    out << ",\n    \"levels\": ";
    write_rows(out, order.levels.size(), 4, [&](std::size_t i) { write_names(out, report.rig, order.levels[i]); });
    out << ",\n    \"longest_chain\": ";
    write_names(out, report.rig, order.longest_chain);
    write_order_keys(out, report, 4);
    out << ",\n    \"grain\": \"bone\"\n  }";
}

template <class Elements, class WriteOne>
void write_elements(JsonOut& out, std::string_view key, const Report& report, const Elements& elements, WriteOne write_one) {
    out << ",\n  \"" << key << "\": ";
    write_rows(out, elements.size(), 2, [&](std::size_t i) { write_one(out, report, elements[i]); });
}

// What does not count: accepted by rules, with the reason, or known by the baseline; and what the baseline has that is gone.
void write_review(JsonOut& out, const Report& report, const Review& review) {
    std::vector<const SetAside*> accepted;
    std::vector<const Finding*> known;
    for (const SetAside& one : review.set_aside)
        one.by == SetAside::By::rules ? accepted.push_back(&one) : known.push_back(&one.finding);
    out << ",\n  \"review\": {\n    \"accepted\": ";
    write_rows(out, accepted.size(), 4, [&](std::size_t i) { write_accepted(out, report, *accepted[i]); });
    out << ",\n    \"known\": ";
    write_rows(out, known.size(), 4, [&](std::size_t i) { write_finding(out, report, *known[i]); });
    out << ",\n    \"gone\": ";
    write_rows(out, review.gone.size(), 4, [&](std::size_t i) { write_gone(out, review.gone[i]); });
    out << ",\n    \"has_baseline\": " << (review.has_baseline ? "true" : "false") << "\n  }";
}

}  // namespace

void write_json(std::ostream& stream, const Report& report) {
    JsonOut out(stream);
    write_head(out, "rig-report", report.rig, report.source, "state", report.facts.state_name);
    out << ",\n  \"counts\": " << text_of(counts_row(report));
    out << ",\n  \"cycles\": ";
    write_rows(out, report.facts.cycles.size(), 2, [&](std::size_t i) { out << text_of(cycle_row(report, i)); });
    out << ",\n  \"order\": ";
    write_order(out, report);
    out << ",\n  \"attachment\": ";
    write_rows(out, report.facts.attachment.deform.size(), 2, [&](std::size_t i) { write_attachment(out, report, i); });
    out << ",\n  \"states\": ";
    write_states(out, report);
    write_elements(out, "fan_out", report, report.facts.fan_out, write_fan_out);
    write_elements(out, "findings", report, report.findings, write_finding);
    if (report.review != nullptr) write_review(out, report, *report.review);
    out << "\n}\n";
    out.finish();
}

}  // namespace ligament
