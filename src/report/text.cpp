// What does a person get to read? Findings by bone group, worst first, and one line that sums them up.
#include <map>
#include <optional>
#include <ostream>

#include "cycle_index.hpp"
#include "difference_text.hpp"
#include "formats.hpp"
#include "review_text.hpp"

namespace ligament {

namespace {

// So many sets of switches are named of which not all combinations were looked at; the JSON report has all of them.
constexpr std::size_t sets_shown = 5;

std::string_view colour_of(Severity severity) {
    switch (severity) {
        case Severity::error:
            return "\x1b[1;31m";
        case Severity::warning:
            return "\x1b[1;33m";
        case Severity::note:
            break;
    }
    return "\x1b[1;36m";
}

std::string painted(std::string_view text, std::string_view colour, const TextStyle& style) {
    return style.colour ? std::string(colour).append(text).append("\x1b[0m") : std::string(text);
}

void write_finding(std::ostream& out, const Report& report, const Finding& finding, std::optional<std::size_t> cycle,
                   const TextStyle& style) {
    out << "  " << place_text(report.source, finding.place) << ": "
        << painted(name_of(finding.severity), colour_of(finding.severity), style) << ": " << finding.check
        << pointer_text(finding.pointer) << '\n';
    out << wrapped(printable(finding.message), 4, style.width);
    if (cycle) write_cycle_text(out, report, *cycle, style, 6);
    write_differences(out, report.rig, finding, style, 6);
    if (!finding.hint.empty()) out << wrapped("hint: " + printable(finding.hint), 4, style.width);
}

// A finding stands with the first bone that it names.
std::string_view group_of(const Rig& rig, const Finding& finding) {
    return finding.bones.empty() ? std::string_view{} : std::string_view{rig.bones[finding.bones.front()].group};
}

// Findings come worst first; a group stands where its first finding does, so that the group with the worst comes first.
std::vector<std::vector<const Finding*>> by_group(const Report& report) {
    std::vector<std::vector<const Finding*>> groups;
    std::map<std::string_view, std::size_t> places;
    for (const Finding& finding : report.findings) {
        const auto [place, fresh] = places.emplace(group_of(report.rig, finding), groups.size());
        if (fresh) groups.emplace_back();
        groups[place->second].push_back(&finding);
    }
    return groups;
}

std::string findings_text(std::size_t errors, std::size_t warnings, std::size_t notes) {
    if (errors + warnings + notes == 0) return "no findings";
    return counted_text(errors, "error") + ", " + counted_text(warnings, "warning") + ", " + counted_text(notes, "note");
}

std::string roles_text(const Rig& rig) {
    std::size_t deform = 0, controls = 0, mechanism = 0;
    for (const Bone& bone : rig.bones) {
        deform += bone.deform;
        controls += bone.control;
        mechanism += bone.is_mechanism();
    }
    return counted_text(rig.bones.size(), "bone") + " (" + std::to_string(deform) + " deform, " + std::to_string(controls) +
           " control, " + std::to_string(mechanism) + " mechanism)";
}

// Nothing where every combination was looked at.
void write_combinations(std::ostream& out, const Report& report, const TextStyle& style) {
    const SwitchFacts& facts = report.facts.switches;
    std::size_t sets = 0;
    for (const InteractingSet& set : facts.sets) {
        if (set.looked_at == set.combinations || ++sets > sets_shown) continue;
        std::string names;
        for (std::uint32_t index : set.switches)
            names += (names.empty() ? "" : ", ") + printable(report.rig.properties[facts.switches[index].property].name);
        out << wrapped("switches that touch the same bones: looked at " + std::to_string(set.looked_at) + " of " +
                           (set.is_counted() ? "" : "more than ") + std::to_string(set.combinations) + " combinations of " +
                           names,
                       0, style.width);
    }
    if (sets > sets_shown) out << "showing " << sets_shown << " of " << sets << " sets of such switches\n";
}

// What does not count, and what is gone; nothing where there is neither.
void write_review(std::ostream& out, const Review& review, const TextStyle& style) {
    if (const std::string summary = set_aside_text(review); !summary.empty()) out << wrapped(summary, 0, style.width);
    if (review.gone.empty()) return;
    out << counted_text(review.gone.size(), "finding") << " of the baseline " << (review.gone.size() == 1 ? "is" : "are")
        << " gone:\n";
    for (const Identity& identity : review.gone) out << wrapped(printable(gone_text(identity)), 2, style.width);
}

}  // namespace

void Totals::add(const Report& report) {
    ++rigs;
    bones += report.rig.bones.size();
    for (const Finding& finding : report.findings)
        ++(finding.severity == Severity::error ? errors : finding.severity == Severity::warning ? warnings : notes);
}

void Totals::add(const Totals& other) {
    rigs += other.rigs;
    unreadable += other.unreadable;
    bones += other.bones;
    errors += other.errors;
    warnings += other.warnings;
    notes += other.notes;
}

void write_finding_list(std::ostream& out, const Report& report, const TextStyle& style) {
    const CycleIndex cycles(report);
    for (const std::vector<const Finding*>& group : by_group(report)) {
        const std::string_view name = group_of(report.rig, *group.front());
        out << painted(name.empty() ? "no group" : "group " + printable(name), "\x1b[1m", style) << '\n';
        for (const Finding* finding : group) write_finding(out, report, *finding, cycles.find(*finding), style);
        out << '\n';
    }
}

void write_text(std::ostream& out, const Report& report, const TextStyle& style) {
    write_finding_list(out, report, style);
    write_combinations(out, report, style);
    if (report.review != nullptr) write_review(out, *report.review, style);
    Totals totals;
    totals.add(report);
    out << printable(report.rig.name) << " (" << printable(report.source) << "): " << roles_text(report.rig) << ", "
        << findings_text(totals.errors, totals.warnings, totals.notes)
        << (report.facts.is_default_state ? "" : ", in state " + printable(report.facts.state_name)) << '\n';
}

void write_text_total(std::ostream& out, const Totals& totals) {
    out << "\ntotal: " << counted_text(totals.rigs + totals.unreadable, "rig");
    if (totals.unreadable > 0) out << " (" << totals.unreadable << " unreadable)";
    out << ", " << counted_text(totals.bones, "bone") << ", " << findings_text(totals.errors, totals.warnings, totals.notes)
        << '\n';
}

}  // namespace ligament
