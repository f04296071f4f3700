// Which constraints stand twice in one stack?
#include <algorithm>
#include <vector>

#include "stack_entry.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

/// By place in the stack: the first constraint that it repeats, or none.
std::vector<std::uint32_t> find_repeated(const std::vector<Constraint>& stack) {
    std::vector<std::uint32_t> live, repeated(stack.size(), none);
    for (std::uint32_t i = 0; i < stack.size(); ++i)
        if (!stack[i].is_inert()) live.push_back(i);
    std::sort(live.begin(), live.end(), [&](std::uint32_t a, std::uint32_t b) {
        const auto order = compare_entries(stack[a], stack[b]);
        return order != 0 ? order < 0 : a < b;
    });
    for (std::size_t first = 0, i = 1; i < live.size(); ++i)
        if (compare_entries(stack[live[first]], stack[live[i]]) == 0)
            repeated[live[i]] = live[first];
        else
            first = i;
    return repeated;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (BoneId bone = 0; bone < checked.rig.bones.size(); ++bone) {
        const Bone& owner = checked.rig.bones[bone];
        if (owner.constraints.size() < 2) continue;
        const std::vector<std::uint32_t> repeated = find_repeated(owner.constraints);
        for (std::uint32_t i = 0; i < repeated.size(); ++i) {
            if (repeated[i] == none) continue;
            const Constraint& constraint = owner.constraints[i];
            Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
            finding.bones = {bone};
            finding.maker = owner.name + "/" + constraint.name;
            finding.message = "constraint " + quoted(finding.maker) + " repeats " + quoted(owner.constraints[repeated[i]].name) +
                              " of the same bone: same kind, sources and channels";
            finding.hint = "take one of them away, or let it read what it was meant to read";
        }
    }
}

}  // namespace

extern constinit const Check constraint_repeated{
    .name = "constraint-repeated",
    .severity = Severity::warning,
    .summary = "same kind, sources and channels twice on one bone",
    .what =
        "Two constraints of one bone are of the same kind, read the same of the same sources and write the same, in the same "
        "space "
        "and about the same axes. Their names, weights and ranges may differ.",
    .harm =
        "The second one does the work of the first again. Where weights differ nobody can tell which of them counts, and whoever "
        "edits one wonders why the bone does not change.",
    .mend = "Take one of them away. Where the second was copied to read another bone, let it.",
    .find = find,
};

}  // namespace ligament::checks
