// Which names break the patterns that a project has laid down?
#include "fitting.hpp"
#include "patterns.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (const NamePattern& rule : checked.rules.names)
        for (BoneId id = 0; id < checked.rig.bones.size(); ++id) {
            const Bone& bone = checked.rig.bones[id];
            if (!fits(bone, rule.of) || is_named_by(rule.names, bone.name)) continue;
            Finding& finding = findings.emplace_back(finding_about(self, checked.rig, id));
            finding.maker = words_of(rule.of) + " as " + alternatives(rule.names);
            finding.message = std::string(role_of(bone)) + " bone " + quoted(bone.name) + " is not named as " +
                              words_of(rule.of) + " are to be: " + alternatives(rule.names);
            if (!rule.why.empty()) finding.message += " (" + rule.why + ")";
            finding.hint = "rename it, and what refers to it by name";
        }
}

}  // namespace

extern constinit const Check name_pattern{
    .name = "name-pattern",
    .severity = Severity::warning,
    .summary = "a name that breaks the patterns set in the rules file",
    .what =
        "The rules file says how bones of a role, group or name are to be called, and this bone is called otherwise. Without "
        "such "
        "rules nothing is found. Each rule is held against each bone for itself.",
    .harm = "Scripts, mirroring and exporters choose bones by their names: what is named otherwise is left out without a word.",
    .mend = "Rename the bone, or widen the pattern.",
    .find = find,
};

}  // namespace ligament::checks
