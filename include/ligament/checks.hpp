// What should a rigger look at? The table of checks, and running it over a rig's facts.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "ligament/facts.hpp"
#include "ligament/rules.hpp"

namespace ligament {

namespace checks {
class Common;
}

/// What a check may read.
struct Checked {
    const Rig& rig;
    const Dependencies& dependencies;
    const Facts& facts;
    const Rules& rules;
    const checks::Common& common;  ///< what several checks look at alike
};

/// One check: its name and severity are those of the findings that it makes.
struct Check {
    std::string_view name;
    Severity severity;
    std::string_view summary;  ///< one line: what it says
    std::string_view what;     ///< what exactly is found
    std::string_view harm;     ///< why it hurts
    std::string_view mend;     ///< how to mend it
    void (*find)(const Checked& checked, const Check& self, std::vector<Finding>& findings);
};

/// All checks, in the order in which reports list them.
std::span<const Check> all_checks();

/// Findings of all checks that the rules do not switch off, with the severities that they set: worst first, then by place in the
/// table of checks, then in file order. They are the same in any number of threads (0: one a processor).
std::vector<Finding> find_findings(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const Rules& rules = {},
                                   unsigned workers = 1);

}  // namespace ligament
