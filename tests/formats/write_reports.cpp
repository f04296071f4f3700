// What do all formats make of rigs, also where a review sets findings aside? Writes reports as `ligament check` would:
//   write_reports FORMAT [--failing SEVERITY] [--baseline RIG] [--accept CHECK REASON] RIG...
// Findings that the baseline's rig has as well are known by it; those of an accepted check are set aside with the reason.
#include <algorithm>
#include <iostream>
#include <optional>
#include <set>
#include <span>

#include "ligament/read.hpp"
#include "ligament/report.hpp"

namespace {

using namespace ligament;

struct Call {
    std::string format, baseline, accepted, reason;
    TextStyle style;
    std::vector<std::string> rigs;
};

/// Whether there is a review at all, and what of.
std::optional<Call> call_of(std::span<char*> words) {
    Call call;
    if (words.size() < 2) return {};
    call.format = words[1];
    for (std::size_t i = 2; i < words.size(); ++i) {
        const std::string word = words[i];
        if (word == "--failing" && i + 1 < words.size()) {
            const std::string severity = words[++i];
            call.style.failing = severity == "note"      ? Severity::note
                                 : severity == "warning" ? Severity::warning
                                                         : Severity::error;
        } else if (word == "--baseline" && i + 1 < words.size()) {
            call.baseline = words[++i];
        } else if (word == "--accept" && i + 2 < words.size()) {
            call.accepted = words[++i];
            call.reason = words[++i];
        } else {
            call.rigs.push_back(word);
        }
    }
    return call;
}

std::vector<Identity> identities_in(const std::string& path) {
    const ReadResult read = read_rig_file(path);
    if (!read.rig) throw std::runtime_error(path + " is no rig");
    const Dependencies dependencies = build_dependencies(*read.rig);
    std::vector<Identity> identities;
    for (const Finding& finding : find_findings(*read.rig, dependencies, find_facts(*read.rig, dependencies)))
        identities.push_back(identity_of(*read.rig, finding));
    return identities;
}

Review review_of(const Call& call, const Rig& rig, const std::vector<Finding>& findings) {
    Review review;
    review.has_baseline = !call.baseline.empty();
    const std::vector<Identity> baseline = review.has_baseline ? identities_in(call.baseline) : std::vector<Identity>{};
    const std::set<Identity> known(baseline.begin(), baseline.end());
    std::set<Identity> found;
    for (const Finding& finding : findings) {
        const Identity identity = identity_of(rig, finding);
        found.insert(identity);
        if (!call.accepted.empty() && finding.check == call.accepted)
            review.set_aside.push_back({finding, SetAside::By::rules, call.reason});
        else if (known.contains(identity))
            review.set_aside.push_back({finding, SetAside::By::baseline, {}});
        else
            review.findings.push_back(finding);
    }
    std::copy_if(baseline.begin(), baseline.end(), std::back_inserter(review.gone),
                 [&](const Identity& identity) { return !found.contains(identity); });
    return review;
}

void write(const ReportFormat& format, const Call& call, const std::string& path, Totals& totals) {
    const ReadResult read = read_rig_file(path);
    if (!read.rig) {
        format.write_unreadable(std::cout, {path, read.faults}, call.style);
        ++totals.unreadable;
        return;
    }
    const Rig& rig = *read.rig;
    const Dependencies dependencies = build_dependencies(rig);
    const Facts facts = find_facts(rig, dependencies);
    const std::vector<Finding> findings = find_findings(rig, dependencies, facts);
    const Review review = review_of(call, rig, findings);
    const bool is_reviewed = !call.baseline.empty() || !call.accepted.empty();
    const Report report{
        path, rig, dependencies, facts, is_reviewed ? review.findings : findings, is_reviewed ? &review : nullptr};
    format.write(std::cout, report, call.style);
    totals.add(report);
}

}  // namespace

int main(int count, char** words) {
    const std::optional<Call> call = call_of({words, static_cast<std::size_t>(count)});
    if (!call || call->rigs.empty()) return 2;
    const auto formats = all_report_formats();
    const auto format = std::find_if(formats.begin(), formats.end(), [&](const auto& one) { return one.name == call->format; });
    if (format == formats.end()) return 2;
    const bool is_enclosed = call->rigs.size() > 1 || format->has_envelope;
    Totals totals;
    if (is_enclosed) format->open(std::cout);
    for (std::size_t i = 0; i < call->rigs.size(); ++i) {
        if (i > 0) format->between(std::cout);
        write(*format, *call, call->rigs[i], totals);
    }
    if (is_enclosed) format->close(std::cout, totals, call->style);
    return 0;
}
