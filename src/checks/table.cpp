// Which checks are there? The one table of checks, and running it.
#include <algorithm>
#include <array>

#include "ligament/checks.hpp"

// In the order in which reports list them; each is defined in the file of its name.
#define LIGAMENT_CHECKS(CHECK)  \
    CHECK(cycle)                \
    CHECK(cycle_by_bone)        \
    CHECK(deform_orphaned)      \
    CHECK(deform_lost_in_state) \
    CHECK(deform_root_only)     \
    CHECK(deform_carried)       \
    CHECK(switch_gap)           \
    CHECK(constraint_dead)      \
    CHECK(property_unused)      \
    CHECK(driver_constant)      \
    CHECK(fan_out_high)         \
    CHECK(standard_broken)      \
    CHECK(weights_unread)       \
    CHECK(joint_unweighted)     \
    CHECK(extension_unread)

namespace ligament {

namespace checks {
#define DECLARE(name) extern const Check name;
LIGAMENT_CHECKS(DECLARE)
#undef DECLARE
}  // namespace checks

std::span<const Check> all_checks() {
#define ENTRY(name) checks::name,
    // Copied at the first call: the checks hold constants only, so that all of them exist before any code runs.
    static const std::array table{LIGAMENT_CHECKS(ENTRY)};
#undef ENTRY
    return table;
}

std::vector<Finding> find_findings(const Rig& rig, const Dependencies& dependencies, const Facts& facts) {
    const Checked checked{rig, dependencies, facts};
    std::vector<Finding> findings;
    for (const Check& check : all_checks()) check.find(checked, check, findings);
    for (Finding& finding : findings)
        if (finding.pointer.empty()) finding.pointer = pointer_at(rig, finding.place);
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
    return findings;
}

}  // namespace ligament
