// What stands in a comment or a document? Findings as tables of GitHub Flavored Markdown.
#include <algorithm>
#include <ostream>

#include "cycle_index.hpp"
#include "formats.hpp"
#include "markdown_text.hpp"
#include "review_text.hpp"

namespace ligament {

namespace {

// Longer lists of bones are shown in part; JSON has all of them.
constexpr std::size_t bones_shown = 12, edges_shown = 40;

std::string place_code(std::string_view source, Place place) {
    std::string text(source);
    if (place.line > 0) text += ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
    return markdown_code(text);
}

std::string bones_cell(const Rig& rig, const Finding& finding) {
    std::string text;
    const std::size_t shown = std::min(finding.bones.size(), bones_shown);
    for (std::size_t i = 0; i < shown; ++i) text += (i > 0 ? ", " : "") + markdown_code(rig.bones[finding.bones[i]].name);
    if (shown < finding.bones.size())
        text += " (showing " + std::to_string(shown) + " of " + std::to_string(finding.bones.size()) + ")";
    if (!finding.subject.empty()) text += (text.empty() ? "" : "; ") + markdown_code(finding.subject);
    return text;
}

std::string where_cell(const Report& report, const Finding& finding) {
    const std::string place = place_code(report.source, finding.place);
    return finding.pointer.empty() ? place : place + " " + markdown_code(finding.pointer);
}

void write_findings(std::ostream& out, const Report& report) {
    out << "\n| severity | check | where | about | what | hint |\n| --- | --- | --- | --- | --- | --- |\n";
    for (const Finding& finding : report.findings)
        out << "| " << name_of(finding.severity) << " | " << markdown_code(finding.check) << " | " << where_cell(report, finding)
            << " | " << bones_cell(report.rig, finding) << " | " << markdown_text(finding.message) << " | "
            << markdown_text(finding.hint) << " |\n";
}

void write_differences(std::ostream& out, const Report& report) {
    for (const Finding& finding : report.findings) {
        if (finding.differences.empty()) continue;
        out << "\nWhere " << markdown_code(finding.check) << " at " << where_cell(report, finding)
            << " differs:\n\n| what | left | right |\n| --- | --- | --- |\n";
        for (const Difference& one : finding.differences)
            out << "| " << markdown_text(one.what) << " | " << markdown_text(one.left) << " | " << markdown_text(one.right)
                << " |\n";
    }
}

void write_cycle(std::ostream& out, const Report& report, const Cycle& cycle, std::size_t number) {
    const auto name = [&](std::uint32_t end) {
        return markdown_code(cycle.is_between_properties() ? report.rig.properties[end].name : report.rig.bones[end].name);
    };
    out << "\nCycle " << number << ", at " << name_of(cycle.grain) << " grain:\n\n";
    const std::size_t shown = std::min(cycle.witness.size(), edges_shown);
    for (std::size_t i = 0; i < shown; ++i) {
        const FoldedEdge& edge = cycle.witness[i];
        out << "- " << name(edge.from) << " → " << name(edge.to) << ": "
            << markdown_text(edge_text(report.rig, report.dependencies, edge)) << ", "
            << place_code(report.source, place_of(report.rig, report.dependencies, edge.maker)) << '\n';
    }
    if (shown < cycle.witness.size()) out << "- showing " << shown << " of " << cycle.witness.size() << " edges\n";
}

// Of the cycles that findings speak of: one that is accepted is not told again.
void write_cycles(std::ostream& out, const Report& report) {
    const CycleIndex cycles(report);
    for (const Finding& finding : report.findings)
        if (const auto index = cycles.find(finding)) write_cycle(out, report, report.facts.cycles[*index], *index + 1);
}

void write_review(std::ostream& out, const Report& report, const Review& review) {
    if (const std::string summary = set_aside_text(review); !summary.empty()) {
        out << "\n<details><summary>" << summary
            << "</summary>\n\n| check | where | about | what | why it may stay |\n| --- | --- | --- | --- | --- |\n";
        for (const SetAside& one : review.set_aside)
            out << "| " << markdown_code(one.finding.check) << " | " << where_cell(report, one.finding) << " | "
                << bones_cell(report.rig, one.finding) << " | " << markdown_text(one.finding.message) << " | "
                << (one.by == SetAside::By::baseline ? "known by the baseline" : markdown_text(one.reason)) << " |\n";
        out << "\n</details>\n";
    }
    if (review.gone.empty()) return;
    out << "\n"
        << counted_text(review.gone.size(), "finding") << " of the baseline " << (review.gone.size() == 1 ? "is" : "are")
        << " gone:\n\n";
    for (const Identity& identity : review.gone) out << "- " << markdown_text(gone_text(identity)) << '\n';
}

std::string counts_text(std::size_t errors, std::size_t warnings, std::size_t notes) {
    if (errors + warnings + notes == 0) return "no findings";
    return counted_text(errors, "error") + ", " + counted_text(warnings, "warning") + ", " + counted_text(notes, "note");
}

void write(std::ostream& out, const Report& report, const TextStyle&) {
    Totals totals;
    totals.add(report);
    out << "## " << markdown_text(report.rig.name) << "\n\n"
        << markdown_code(report.source) << ": " << counted_text(report.rig.bones.size(), "bone") << ", "
        << counts_text(totals.errors, totals.warnings, totals.notes)
        << (report.facts.is_default_state ? "" : ", in state " + markdown_code(report.facts.state_name)) << '\n';
    if (!report.findings.empty()) write_findings(out, report);
    write_differences(out, report);
    write_cycles(out, report);
    if (report.review != nullptr) write_review(out, report, *report.review);
}

void write_unreadable(std::ostream& out, const Unreadable& unreadable, const TextStyle&) {
    out << "## " << markdown_text(unreadable.source) << "\n\nThis rig cannot be read:\n\n";
    for (const Fault& fault : unreadable.faults)
        out << "- " << place_code(unreadable.source, fault.place) << ": " << markdown_text(fault.message)
            << (fault.pointer.empty() ? "" : " " + markdown_code(fault.pointer)) << '\n';
}

void write_totals(std::ostream& out, const Totals& totals, const TextStyle&) {
    out << "\n## All rigs\n\n| rigs | unreadable | bones | errors | warnings | notes |\n| ---: | ---: | ---: | ---: | ---: | "
           "---: "
           "|\n| "
        << totals.rigs + totals.unreadable << " | " << totals.unreadable << " | " << totals.bones << " | " << totals.errors
        << " | " << totals.warnings << " | " << totals.notes << " |\n";
}

}  // namespace

namespace formats {

extern constinit const ReportFormat markdown{.name = "markdown",
                                             .summary = "for comments and documents: GitHub Flavored Markdown",
                                             .has_envelope = false,
                                             .write = write,
                                             .write_unreadable = write_unreadable,
                                             .open = [](std::ostream&) {},
                                             .between = [](std::ostream& out) { out << '\n'; },
                                             .close = write_totals};

}  // namespace formats

}  // namespace ligament
