// Which deform bones are attached by default, but less well at a stop of a switch?
#include <algorithm>

#include "words.hpp"

namespace ligament::checks {

namespace {

std::string what_happens(const Worse& worse) {
    if (worse.by_others)
        return "it still moves with the same root controls, but there other deform bones have controls of their own";
    switch (worse.verdict) {
        case Verdict::orphaned:
            return "no control reaches it";
        case Verdict::root_only:
            return "it moves only with root controls";
        case Verdict::carried:
        case Verdict::attached:
            break;
    }
    return "it only rides on its deform parent";
}

std::string names_of_states(const Checked& checked, const std::vector<const Worse*>& states) {
    std::string text;
    const std::size_t shown = std::min(states.size(), listed_at_most);
    for (std::size_t i = 0; i < shown; ++i)
        text += (i == 0 ? "" : ", ") + quoted(name_of(checked.rig, checked.facts.switches.switches, states[i]->settings));
    if (shown < states.size()) text += " (showing " + std::to_string(shown) + " of " + std::to_string(states.size()) + ")";
    return text;
}

/// States told together: those with the verdict and the constraint to blame of the first.
void tell(const Checked& checked, std::vector<const Worse*>& states, Finding& finding) {
    const Worse& first = *states.front();
    const auto alike = [&](const Worse* worse) {
        return worse->verdict == first.verdict && worse->blamed == first.blamed && worse->by_others == first.by_others &&
               worse->blamed_is_off == first.blamed_is_off;
    };
    const auto rest = std::stable_partition(states.begin(), states.end(), alike);
    const std::vector<const Worse*> together(states.begin(), rest);
    finding.message += "at " + names_of_states(checked, together) + " " + what_happens(first);
    if (first.blamed != none) {
        const Constraint& blamed = constraint_of(checked.rig, checked.dependencies, first.blamed);
        const std::string name = quoted(constraint_name(checked.rig, checked.dependencies, first.blamed));
        finding.message +=
            first.blamed_is_off ? ", since " + name + " has the weight 0 there" : ", by what " + name + " does there";
        if (finding.place == Place{}) finding.place = blamed.place;
    }
    if (!first.right.empty())
        finding.message += "; " + listed(checked.rig, first.right) +
                           (first.right.size() == 1 ? " beside it does it right" : " beside it do it right");
    states.erase(states.begin(), rest);
}

std::string hint_for(const Checked& checked, const Worse& worse) {
    if (worse.by_others)
        return "attach it to the limb that it belongs to; if it is meant to stand still on the root, list the roots";
    if (worse.blamed == none) return "see what moves it there: ligament trace with --state";
    const std::string name = quoted(constraint_name(checked.rig, checked.dependencies, worse.blamed));
    if (worse.blamed_is_off) return "keep another way in alive there, or let " + name + " keep a weight";
    if (worse.right.empty()) return "let " + name + " read a bone that a control moves, or keep another way in alive there";
    return "compare " + name + " with the same constraint of " + quoted(checked.rig.bones[worse.right.front()].name);
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Facts& facts = checked.facts;
    if (!facts.is_default_state) return;  // the verdicts are of another state, which is not what these are worse than
    for (std::size_t place = 0; place < facts.attachment.deform.size(); ++place) {
        const Attachment& attachment = facts.attachment.deform[place];
        std::vector<const Worse*> states;
        for (const auto* list : {&facts.switches.worse[place], &facts.switches.worse_yet[place]})
            for (const Worse& worse : *list) states.push_back(&worse);
        if (states.empty()) continue;
        Finding& finding = findings.emplace_back(finding_about(self, checked.rig, attachment.bone));
        finding.hint = hint_for(checked, *states.front());
        finding.message = "deform bone " + quoted(checked.rig.bones[attachment.bone].name) + " is " +
                          std::string(name_of(attachment.verdict)) + " in the default state; ";
        const Place place_of_bone = finding.place;
        finding.place = {};
        while (!states.empty()) {
            tell(checked, states, finding);
            if (!states.empty()) finding.message += "; ";
        }
        if (finding.place == Place{}) finding.place = place_of_bone;
    }
}

}  // namespace

extern constinit const Check deform_lost_in_state{
    .name = "deform-lost-in-state",
    .severity = Severity::error,
    .summary = "a deform bone's verdict gets worse at a stop of a switch",
    .what =
        "In the default state controls reach this deform bone as they should; with a switch at another stop, or with several "
        "switches set that touch it, they do so no more. The finding names the states, the constraint that makes the difference "
        "(were it as in the default state, the bone would be attached as well as there), and the bones of the same run that the "
        "switch gates at the same place and that still move.",
    .harm =
        "Nobody sees it until an animator sets the switch and a part of the limb stays behind. Most often the constraint that "
        "takes over there reads a bone that no control moves, or the one that should take over does not have the switch in its "
        "weight.",
    .mend = "Make the constraint as those of the bones that still move are.",
    .find = find,
};

}  // namespace ligament::checks
