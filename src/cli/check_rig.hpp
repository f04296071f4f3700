// What comes of checking one rig of a call?
#pragma once

#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "input.hpp"
#include "ligament/report.hpp"

namespace ligament::cli {

/// What a call wants of each of its rigs.
struct CheckOptions {
    std::vector<std::string> rigs;
    std::string format, fail_on = "error", output = "-", colour = "auto", baseline, write_baseline, shard;
    std::vector<std::string> cut_costs, state;
    std::size_t circuits = 0;
    std::uint32_t jobs = 1;
    InputOptions input;
};

/// What all rigs of a call are checked against; nothing of it changes while they are.
struct CheckSetting {
    const CheckOptions& options;
    std::vector<Rules> rules;  ///< by place in options.rigs
    std::optional<Baseline> baseline;
    Day day;
};

/// A rig with all that was found in it.
struct CheckedRig {
    Rig rig;
    Dependencies dependencies;
    Facts facts;
    Review review;
    bool is_reviewed = false;  ///< there are rules or a baseline
    KnownFindings found;       ///< all findings that no rules accept, for a new baseline; only where one is to be written
};

/// A rig, or why there is none: `faults` of its file, or that it does not have the state.
struct CheckOutcome {
    std::unique_ptr<CheckedRig> checked;
    std::vector<Fault> faults;
    std::string unusable;
};

/// Reads and checks the rig at a place of the call. May run beside others.
CheckOutcome check_rig(const CheckSetting& setting, std::size_t position);

Report report_of(const std::string& path, const CheckedRig& checked);

}  // namespace ligament::cli
