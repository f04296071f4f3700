// What do code reviews and build servers read? Findings as SARIF 2.1.0 (OASIS), one run a rig.
#include <algorithm>

#include "cycle_index.hpp"
#include "fingerprint.hpp"
#include "formats.hpp"
#include "ligament/checks.hpp"
#include "review_text.hpp"
#include "sarif_graph.hpp"

namespace ligament {

namespace {

using namespace sarif;
using json_rows::text_of;

/// What rows of results are made from.
struct Context {
    const Report& report;
    CycleIndex cycles{report};
    LogicalNames names{report};
    ShownGraph graph;

    bool has_baseline() const { return report.review != nullptr && report.review->has_baseline; }
};

std::string id_of(std::string_view source) { return "ligament/" + (source == "-" ? "standard input" : uri_of(source)) + '/'; }

Row code_flow(const Context& context, const Cycle& cycle) {
    const Report& report = context.report;
    Row locations = Row::array();
    for (const FoldedEdge& edge : cycle.witness) {
        const auto name = [&](std::uint32_t end) {
            return escaped(cycle.is_between_properties() ? report.rig.properties[end].name : report.rig.bones[end].name);
        };
        const Place place = place_of(report.rig, report.dependencies, edge.maker);
        Row location{{"physicalLocation", physical_location(report.source, place)}};
        location["message"] = message(name(edge.from) + " -> " + name(edge.to) + " (" +
                                      escaped(edge_text(report.rig, report.dependencies, edge)) + ")");
        locations.push_back({{"location", std::move(location)}});
    }
    Row flow{{"message", message("a loop of " + counted_text(cycle.witness.size(), "edge") +
                                 (cycle.witness_is_shortest ? ", none is shorter" : ""))}};
    flow["threadFlows"] = Row::array({Row{{"locations", std::move(locations)}}});
    return flow;
}

void add_rule(Row& row, const std::string& check) {
    row["ruleId"] = check;
    if (const auto index = rule_index(check)) row["ruleIndex"] = *index;
}

Row properties_of(const Identity& identity) {
    Row properties = Row::object();
    if (!identity.subject.empty()) properties["subject"] = identity.subject;
    if (!identity.maker.empty()) properties["maker"] = identity.maker;
    return properties;
}

Row result_row(const Context& context, const Finding& finding) {
    const Report& report = context.report;
    const Identity identity = identity_of(report.rig, finding);
    Row row;
    add_rule(row, finding.check);
    row["level"] = level_of(finding.severity);
    row["message"] = message(escaped(finding.message) + (finding.hint.empty() ? "" : "\nhint: " + escaped(finding.hint)));
    Row location{{"physicalLocation", physical_location(report.source, finding.place)}};
    if (Row names = context.names.of(identity); !names.empty()) location["logicalLocations"] = std::move(names);
    row["locations"] = Row::array({std::move(location)});
    const auto cycle = context.cycles.find(finding);
    if (cycle && !report.facts.cycles[*cycle].witness.empty()) {
        row["codeFlows"] = Row::array({code_flow(context, report.facts.cycles[*cycle])});
        if (auto traversal = traversal_of(report, context.graph, report.facts.cycles[*cycle]))
            row["graphTraversals"] = Row::array({*std::move(traversal)});
    }
    row["partialFingerprints"] = {{"ligament/v1", fingerprint_of(identity)}};
    if (report.review != nullptr) row["suppressions"] = Row::array();
    Row properties = properties_of(identity);
    if (!finding.pointer.empty()) properties["jsonPointer"] = finding.pointer;
    for (const Difference& one : finding.differences)
        properties["differences"].push_back({{"what", one.what}, {"left", one.left}, {"right", one.right}});
    if (!properties.empty()) row["properties"] = std::move(properties);
    return row;
}

// Whether the baseline has what rules accept is not known, so that such a result has no state against it.
Row set_aside_row(const Context& context, const SetAside& set_aside) {
    Row row = result_row(context, set_aside.finding);
    if (set_aside.by == SetAside::By::baseline) {
        row["baselineState"] = "unchanged";
        return row;
    }
    Row suppression{{"kind", "external"}, {"status", "accepted"}};
    if (!set_aside.reason.empty()) suppression["justification"] = set_aside.reason;
    row["suppressions"] = Row::array({std::move(suppression)});
    return row;
}

// The baseline keeps no severity: the level is that of the check.
Row gone_row(const Context& context, const Identity& identity) {
    Row row;
    add_rule(row, identity.check);
    const auto index = rule_index(identity.check);
    row["level"] = level_of(index ? all_checks()[*index].severity : Severity::warning);
    row["message"] = message("not found any more: " + escaped(gone_text(identity)));
    Row location{{"physicalLocation", physical_location(context.report.source, {})}};
    if (Row names = context.names.of(identity); !names.empty()) location["logicalLocations"] = std::move(names);
    row["locations"] = Row::array({std::move(location)});
    row["partialFingerprints"] = {{"ligament/v1", fingerprint_of(identity)}};
    row["baselineState"] = "absent";
    row["suppressions"] = Row::array();
    if (Row properties = properties_of(identity); !properties.empty()) row["properties"] = std::move(properties);
    return row;
}

class Rows {
  public:
    explicit Rows(std::ostream& out) : out_(out) {}
    void write(const Row& row) {
        out_ << (is_first_ ? "\n      " : ",\n      ") << text_of(row);
        is_first_ = false;
    }

  private:
    std::ostream& out_;
    bool is_first_ = true;
};

void write_results(std::ostream& out, const Context& context) {
    Rows rows(out);
    for (const Finding& finding : context.report.findings) {
        Row row = result_row(context, finding);
        if (context.has_baseline()) row["baselineState"] = "new";
        rows.write(row);
    }
    if (context.report.review == nullptr) return;
    for (const SetAside& set_aside : context.report.review->set_aside) rows.write(set_aside_row(context, set_aside));
    for (const Identity& identity : context.report.review->gone) rows.write(gone_row(context, identity));
}

void write_run_head(std::ostream& out, std::string_view source) {
    out << "  {\n    \"tool\": " << text_of(tool()) << ",\n    \"automationDetails\": " << text_of({{"id", id_of(source)}})
        << ",\n    \"artifacts\": " << text_of(Row::array({artifact_of(source)}))
        << ",\n    \"columnKind\": \"unicodeCodePoints\"";
}

void write(std::ostream& out, const Report& report, const TextStyle&) {
    std::vector<const Finding*> findings;
    for (const Finding& finding : report.findings) findings.push_back(&finding);
    if (report.review != nullptr)
        for (const SetAside& set_aside : report.review->set_aside) findings.push_back(&set_aside.finding);
    const Context context{.report = report, .graph = graph_to_show(report, findings)};
    write_run_head(out, report.source);
    out << ",\n    \"invocations\": [{\"executionSuccessful\":true}],\n    \"properties\": "
        << text_of({{"rig", report.rig.name}, {"state", report.facts.state_name}}) << ",\n    \"graphs\": [";
    write_graph(out, report, context.graph);
    out << "],\n    \"results\": [";
    write_results(out, context);
    out << "]\n  }";
}

// A run that could not be carried out has no results, not even none: nobody may take findings of an earlier run for mended.
void write_unreadable(std::ostream& out, const Unreadable& unreadable, const TextStyle&) {
    write_run_head(out, unreadable.source);
    out << ",\n    \"invocations\": [{\"executionSuccessful\":false,\"toolExecutionNotifications\":[";
    Rows rows(out);
    for (const Fault& fault : unreadable.faults) {
        Row row{{"level", "error"}, {"message", message(escaped(fault.message))}};
        row["locations"] = Row::array({Row{{"physicalLocation", physical_location(unreadable.source, fault.place)}}});
        if (!fault.pointer.empty()) row["properties"] = {{"jsonPointer", fault.pointer}};
        rows.write(row);
    }
    out << "]}]\n  }";
}

}  // namespace

namespace formats {

extern constinit const ReportFormat sarif{
    .name = "sarif",
    .summary = "for code reviews and build servers: SARIF 2.1.0, one run a rig",
    .has_envelope = true,
    .write = write,
    .write_unreadable = write_unreadable,
    .open =
        [](std::ostream& out) {
            out << "{\n\"$schema\": "
                   "\"https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json\","
                   "\n\"version\": \"2.1.0\",\n\"runs\": [\n";
        },
    .between = [](std::ostream& out) { out << ",\n"; },
    .close = [](std::ostream& out, const Totals&, const TextStyle&) { out << "\n]\n}\n"; }};

}  // namespace formats

}  // namespace ligament
