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
Row attachment_row(const Report& report, std::size_t place) {
    const Attachment& attachment = report.facts.attachment.deform[place];
    Row row{{"bone", report.rig.bones[attachment.bone].name}, {"verdict", name_of(attachment.verdict)}};
    if (report.facts.attachment.controls_listed) row["controls"] = names_of(report.rig, attachment.controls);
    if (report.facts.is_default_state && place < report.facts.switches.worse.size()) add_worse(row, report, place);
    return row;
}

Row fan_out_row(const Report& report, const FanOut& fan_out) {
    Row constraints = Row::array();
    for (ConstraintId id : fan_out.constraints) constraints.push_back(constraint_name(report.rig, report.dependencies, id));
    return {{"property", report.rig.properties[fan_out.property].name},
            {"weights", fan_out.weights.size()},
            {"channels", fan_out.channels.size()},
            {"properties", fan_out.properties.size()},
            {"constraints", std::move(constraints)},
            {"bones_moved", fan_out.bones_moved}};
}

Row finding_row(const Report& report, const Finding& finding) {
    Row row{
        {"check", finding.check}, {"severity", name_of(finding.severity)}, {"message", finding.message}, {"hint", finding.hint}};
    row["bones"] = names_of(report.rig, finding.bones);
    if (!finding.subject.empty()) row["subject"] = finding.subject;
    if (!finding.maker.empty()) row["maker"] = finding.maker;
    for (const Difference& difference : finding.differences)
        row["differences"].push_back({{"what", difference.what}, {"left", difference.left}, {"right", difference.right}});
    row["line"] = finding.place.line;
    row["column"] = finding.place.column;
    if (!finding.pointer.empty()) row["pointer"] = finding.pointer;
    return row;
}

Row accepted_row(const Report& report, const SetAside& set_aside) {
    Row row = finding_row(report, set_aside.finding);
    row["reason"] = set_aside.reason;
    return row;
}

Row gone_row(const Report&, const Identity& identity) {
    return {{"check", identity.check}, {"bones", identity.bones}, {"subject", identity.subject}, {"maker", identity.maker}};
}

void write_order(std::ostream& out, const Report& report) {
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

template <class Elements, class RowOf>
void write_list(std::ostream& out, std::string_view key, const Report& report, const Elements& elements, RowOf row_of) {
    out << ",\n  \"" << key << "\": ";
    write_rows(out, elements.size(), 2, [&](std::size_t i) { out << text_of(row_of(report, elements[i])); });
}

// What does not count: accepted by rules, with the reason, or known by the baseline; and what the baseline has that is gone.
void write_review(std::ostream& out, const Report& report, const Review& review) {
    std::vector<SetAside> accepted;
    std::vector<Finding> known;
    for (const SetAside& one : review.set_aside)
        one.by == SetAside::By::rules ? accepted.push_back(one) : known.push_back(one.finding);
    const auto write_part = [&](std::string_view key, const auto& elements, auto row_of) {
        out << '"' << key << "\": ";
        write_rows(out, elements.size(), 4, [&](std::size_t i) { out << text_of(row_of(report, elements[i])); });
    };
    out << ",\n  \"review\": {\n    ";
    write_part("accepted", accepted, accepted_row);
    out << ",\n    ";
    write_part("known", known, finding_row);
    out << ",\n    ";
    write_part("gone", review.gone, gone_row);
    out << ",\n    \"has_baseline\": " << (review.has_baseline ? "true" : "false") << "\n  }";
}

}  // namespace

void write_json(std::ostream& out, const Report& report) {
    write_head(out, "rig-report", report.rig, report.source, "state", report.facts.state_name);
    out << ",\n  \"counts\": " << text_of(counts_row(report));
    out << ",\n  \"cycles\": ";
    write_rows(out, report.facts.cycles.size(), 2, [&](std::size_t i) { out << text_of(cycle_row(report, i)); });
    out << ",\n  \"order\": ";
    write_order(out, report);
    out << ",\n  \"attachment\": ";
    write_rows(out, report.facts.attachment.deform.size(), 2, [&](std::size_t i) { out << text_of(attachment_row(report, i)); });
    out << ",\n  \"states\": " << text_of(states_row(report));
    write_list(out, "fan_out", report, report.facts.fan_out, fan_out_row);
    write_list(out, "findings", report, report.findings, finding_row);
    if (report.review != nullptr) write_review(out, report, *report.review);
    out << "\n}\n";
}

}  // namespace ligament
