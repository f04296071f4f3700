// What do reports say of a rig whose findings were set aside in part?
#pragma once

#include <algorithm>

#include "reported.hpp"

namespace ligament::testing {

/// A report in the format of that name, in its envelope if it has one.
inline std::string written(std::string_view name, const Report& report, const TextStyle& style = {}) {
    const auto formats = all_report_formats();
    const auto format = std::find_if(formats.begin(), formats.end(), [&](const auto& one) { return one.name == name; });
    std::ostringstream out;
    if (format->has_envelope) format->open(out);
    format->write(out, report, style);
    if (format->has_envelope) format->close(out, {}, style);
    return out.str();
}

/// Of three plumes that no control reaches one counts, one is accepted and one is known; a cycle is gone. Not to be copied.
struct Reviewed {
    Reported found{
        "{'name': 'plume', 'roles': ['deform']},\n{'name': 'crest', 'roles': ['deform']},\n{'name': 'tuft', 'roles': "
        "['deform']}"};
    Review review{
        .findings = {found.findings.at(0)},
        .set_aside = {{found.findings.at(1), SetAside::By::rules, "moult"}, {found.findings.at(2), SetAside::By::baseline, {}}},
        .has_baseline = true,
        .gone = {{"cycle", {"neck", "head"}, "", "neck/track"}}};
    Report report{"tiny.rig.json", found.rig, found.dependencies, found.facts, review.findings, &review};

    Reviewed() = default;
    Reviewed(const Reviewed&) = delete;
    Reviewed& operator=(const Reviewed&) = delete;
};

}  // namespace ligament::testing
