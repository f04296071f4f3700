// Which checks are there? The one table of checks, and running it.
#include <algorithm>
#include <array>
#include <functional>
#include <iterator>
#include <optional>

#include "common.hpp"
#include "ligament/checks.hpp"
#include "side_by_side.hpp"

// In the order in which reports list them; each is defined in the file of its name.
#define LIGAMENT_CHECKS(CHECK)   \
    CHECK(cycle)                 \
    CHECK(cycle_by_bone)         \
    CHECK(deform_orphaned)       \
    CHECK(deform_lost_in_state)  \
    CHECK(deform_root_only)      \
    CHECK(deform_carried)        \
    CHECK(deform_feeds_rig)      \
    CHECK(switch_gap)            \
    CHECK(constraint_dead)       \
    CHECK(constraint_repeated)   \
    CHECK(constraint_leftover)   \
    CHECK(constraint_moves_rest) \
    CHECK(chain_too_long)        \
    CHECK(chain_shared)          \
    CHECK(chain_interrupted)     \
    CHECK(chain_straight)        \
    CHECK(ik_no_pole)            \
    CHECK(pole_off_plane)        \
    CHECK(twist_order)           \
    CHECK(double_transform)      \
    CHECK(side_crossed)          \
    CHECK(side_unpaired)         \
    CHECK(side_differs)          \
    CHECK(property_unused)       \
    CHECK(property_range)        \
    CHECK(driver_constant)       \
    CHECK(control_idle)          \
    CHECK(mechanism_idle)        \
    CHECK(fan_out_high)          \
    CHECK(name_pattern)          \
    CHECK(layer_rule)            \
    CHECK(standard_broken)       \
    CHECK(weights_unread)        \
    CHECK(joint_unweighted)      \
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

namespace {

/// The check with the severity that the rules give it; nothing where they switch it off.
std::optional<Check> as_ruled(Check check, const Rules& rules) {
    for (const auto& [name, severity] : rules.severities) {
        if (name != check.name) continue;
        if (!severity) return {};
        check.severity = *severity;
    }
    return check;
}

}  // namespace

std::vector<Finding> find_findings(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const Rules& rules,
                                   unsigned workers) {
    const checks::Common common(rig, dependencies, rules);
    const Checked checked{rig, dependencies, facts, rules, common};
    std::vector<std::vector<Finding>> found(all_checks().size());  // by check
    // From the end of the table, where the one that takes longest stands, mechanism_idle: a quarter of all at 100,000 bones.
    std::vector<std::function<void()>> works;
    for (std::size_t i = found.size(); i-- > 0;)
        works.emplace_back([&, i] {
            if (const std::optional<Check> ruled = as_ruled(all_checks()[i], rules)) ruled->find(checked, *ruled, found[i]);
        });
    const unsigned threads = workers_that_pay(rig.bones.size(), workers);
    if (threads > 1) common.find_all(threads);
    do_side_by_side(works, threads);
    std::vector<Finding> findings;
    for (std::vector<Finding>& of_check : found)
        findings.insert(findings.end(), std::make_move_iterator(of_check.begin()), std::make_move_iterator(of_check.end()));
    for (Finding& finding : findings)
        if (finding.pointer.empty()) finding.pointer = pointer_at(rig, finding.place);
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
    return findings;
}

}  // namespace ligament
