// What changed between two revisions, put together?
#include "ligament/comparison.hpp"

#include "comparison_effects.hpp"
#include "comparison_fields.hpp"

namespace ligament {

Comparison compare_rigs(const Revision& before, const Revision& after) {
    Comparison comparison;
    comparison.matching = match_rigs(before.rig, before.dependencies, after.rig, after.dependencies);
    comparison.changes = compare_elements(before.rig, before.dependencies, after.rig, after.dependencies, comparison.matching);
    compare_order(before, after, comparison);
    compare_links(before, after, comparison);
    compare_verdicts(before, after, comparison);
    compare_cycles(before, after, comparison);
    compare_reach(before, after, comparison);
    compare_switches(before, after, comparison);
    return comparison;
}

}  // namespace ligament
