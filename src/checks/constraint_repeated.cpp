// Which constraints stand twice in one stack?
#include <map>

#include "stack_entry.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (BoneId bone = 0; bone < checked.rig.bones.size(); ++bone) {
        const Bone& owner = checked.rig.bones[bone];
        if (owner.constraints.size() < 2) continue;
        std::map<std::string, const Constraint*> firsts;
        for (const Constraint& constraint : owner.constraints) {
            if (constraint.is_inert()) continue;
            const auto [first, is_new] = firsts.emplace(entry_key(constraint), &constraint);
            if (is_new) continue;
            Finding& finding = findings.emplace_back(finding_of(self, constraint.place));
            finding.bones = {bone};
            finding.maker = owner.name + "/" + constraint.name;
            finding.message = "constraint " + quoted(finding.maker) + " repeats " + quoted(first->second->name) +
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
