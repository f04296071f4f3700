// How is it said what changed between two revisions, and what got worse? As text for people and as JSON for programs.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <vector>

#include "ligament/comparison.hpp"
#include "ligament/report.hpp"

namespace ligament {

/// Findings that one revision alone has: places in the findings of that revision. A finding is the same one if its Identity is,
/// names told as the rig after has them and bones in any order.
struct FindingChanges {
    std::vector<std::size_t> added, gone;
};

FindingChanges compare_findings(const Report& before, const Report& after, const Matching& matching);

/// All that is said about two revisions.
struct ComparisonReport {
    const Report& before;
    const Report& after;
    const Comparison& comparison;
    const FindingChanges& findings;
};

/// What got worse, counted.
struct Worsened {
    std::size_t errors = 0, warnings = 0;  ///< new findings
    std::size_t verdicts = 0;              ///< deform bones attached less well, by default or in a state
    std::size_t cycles = 0;                ///< new ones, and those that took in more

    bool any() const { return errors + warnings + verdicts + cycles > 0; }
};
Worsened worsened(const ComparisonReport& report);

/// What changed, by bone group, renames first; then what it does; then findings new and gone; then one line that sums it up. Long
/// lists are shown in part and say so.
void write_comparison_text(std::ostream& out, const ComparisonReport& report, const TextStyle& style);

/// Format "rig-comparison", version 1: everything.
void write_comparison_json(std::ostream& out, const ComparisonReport& report);

}  // namespace ligament
