// What should a rigger look at? The table of checks, and running it over a rig's facts.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "ligament/facts.hpp"

namespace ligament {

/// What a check may read.
struct Checked {
    const Rig& rig;
    const Dependencies& dependencies;
    const Facts& facts;
};

/// One check: its name and severity are those of the findings that it makes.
struct Check {
    std::string_view name;
    Severity severity;
    std::string_view summary;      ///< one line: what it says
    std::string_view explanation;  ///< what, why it hurts, how to mend
    void (*find)(const Checked& checked, const Check& self, std::vector<Finding>& findings);
};

/// Properties that reach more targets than this are noted by `fan-out-high`.
inline constexpr std::size_t fan_out_limit = 64;

/// All checks, in the order in which reports list them.
std::span<const Check> all_checks();

/// Findings of all checks: worst first, then by place in the table of checks, then in file order.
std::vector<Finding> find_findings(const Rig& rig, const Dependencies& dependencies, const Facts& facts);

}  // namespace ligament
