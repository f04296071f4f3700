// Which findings count? What the rules of a project accept, what an earlier revision had already, and what is gone since.
#pragma once

#include <compare>
#include <string>
#include <vector>

#include "ligament/checks.hpp"

namespace ligament {

/// What makes a finding the same one in another revision: no lines, no counts.
struct Identity {
    std::string check;
    std::vector<std::string> bones;  ///< names, in file order
    std::string subject;
    std::string maker;

    friend auto operator<=>(const Identity&, const Identity&) = default;
};

Identity identity_of(const Rig& rig, const Finding& finding);

/// A finding that does not count.
struct SetAside {
    enum class By : std::uint8_t { rules, baseline };
    Finding finding;
    By by = By::rules;
    std::string reason;  ///< of the rules; empty for a baseline
};

/// Findings as they are told once rules and a baseline were looked at.
struct Review {
    std::vector<Finding> findings;    ///< those that count, in the order of find_findings
    std::vector<SetAside> set_aside;  ///< in that order, too
    bool has_baseline = false;
    std::vector<Identity> gone;  ///< in the baseline, but not found any more; in the order of the baseline
};

}  // namespace ligament
