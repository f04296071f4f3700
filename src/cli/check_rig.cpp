#include "check_rig.hpp"

#include <algorithm>
#include <thread>

#include "baseline_file.hpp"
#include "cut_options.hpp"
#include "state_option.hpp"
#include "status.hpp"

namespace ligament::cli {

namespace {

/// Threads for one rig, 0: one a processor. Rigs that are checked at the same time share the processors.
unsigned workers_for_each(const CheckOptions& options) {
    const auto rigs = static_cast<unsigned>(std::min<std::size_t>(options.jobs, options.rigs.size()));
    return rigs == 1 ? 0 : std::max(1U, std::thread::hardware_concurrency() / rigs);
}

Review review_of(const CheckSetting& setting, std::size_t position, CheckedRig& checked) {
    const CheckOptions& options = setting.options;
    const Rules& rules = setting.rules[position];
    std::vector<Finding> findings =
        find_findings(checked.rig, checked.dependencies, checked.facts, rules, workers_for_each(options));
    if (!setting.baseline) return review_findings(checked.rig, std::move(findings), rules, nullptr, setting.day);
    const std::string source = source_in(options.baseline, options.rigs[position]);
    const KnownFindings nothing{source, {}};
    const KnownFindings* known = setting.baseline->find(source);
    return review_findings(checked.rig, std::move(findings), rules, known == nullptr ? &nothing : known, setting.day);
}

KnownFindings found_in(const std::string& file, const std::string& path, const CheckedRig& checked) {
    KnownFindings found{source_in(file, path), {}};
    for (const Finding& finding : checked.review.findings) found.findings.push_back(identity_of(checked.rig, finding));
    for (const SetAside& aside : checked.review.set_aside)
        if (aside.by == SetAside::By::baseline) found.findings.push_back(identity_of(checked.rig, aside.finding));
    return found;
}

}  // namespace

CheckOutcome check_rig(const CheckSetting& setting, std::size_t position) {
    const CheckOptions& options = setting.options;
    const std::string& path = options.rigs[position];
    const Rules& rules = setting.rules[position];
    CheckOutcome outcome;
    ReadResult result = read_rig_by(path, options.input, rules);
    outcome.faults = std::move(result.faults);
    if (!result.rig) return outcome;
    outcome.checked = std::make_unique<CheckedRig>();
    CheckedRig& checked = *outcome.checked;
    checked.rig = *std::move(result.rig);
    FactOptions wanted;
    try {
        wanted = read_state(checked.rig, path, options.state);
    } catch (const Unusable& reason) {
        outcome.unusable = reason.what();
        outcome.checked.reset();
        return outcome;
    }
    wanted.costs = read_cut_costs(options.cut_costs, rules.costs);
    wanted.circuits = options.circuits;
    wanted.workers = workers_for_each(options);
    checked.dependencies = build_dependencies(checked.rig, wanted.workers);
    checked.facts = find_facts(checked.rig, checked.dependencies, wanted);
    expect_cuts_hold(checked.facts.cuts);
    checked.review = review_of(setting, position, checked);
    checked.is_reviewed = setting.baseline || !rules.file.empty();
    if (!options.write_baseline.empty()) checked.found = found_in(options.write_baseline, path, checked);
    return outcome;
}

Report report_of(const std::string& path, const CheckedRig& checked) {
    const Review& review = checked.review;
    return {path, checked.rig, checked.dependencies, checked.facts, review.findings, checked.is_reviewed ? &review : nullptr};
}

}  // namespace ligament::cli
