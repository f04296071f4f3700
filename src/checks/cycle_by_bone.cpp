// Which bones need each other only as long as a host evaluates bone by bone?
#include "cycle_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

std::string hint_for(const Checked& checked, std::size_t index) {
    const Cut* cut = cut_of(checked, index);
    if (cut == nullptr) return {};
    if (cut->makers.size() > 1)
        return "where the host evaluates bone by bone, cut it at " + cut_words(checked, *cut) +
               ", or split the bones in two, one that is read and one that reads";
    return "where the host evaluates bone by bone, split the bone in two or move what " +
           quoted(name_of(checked.rig, checked.dependencies, cut->makers.front().edge.maker)) +
           " reads to a bone outside the loop";
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (std::size_t i = 0; i < checked.facts.cycles.size(); ++i) {
        const Cycle& cycle = checked.facts.cycles[i];
        if (cycle.grain != Grain::bone) continue;
        findings.push_back(finding_about_cycle(checked, self, cycle));
        findings.back().hint = hint_for(checked, i);
    }
}

}  // namespace

extern constinit const Check cycle_by_bone{
    .name = "cycle-by-bone",
    .severity = Severity::warning,
    .summary = "a cycle that only bone-by-bone evaluation has",
    .what =
        "Taken as wholes these bones need each other, but the steps inside them do not: one bone's pose feeds the other, whose "
        "final transform feeds a later step of the first. A host that evaluates step by step is fine.",
    .harm = "A host that evaluates each bone in one go, or the whole skeleton at once, reports a cycle or lags a frame.",
    .mend =
        "If such a host is to run the rig, split a bone in two (one that is read, one that reads), or read a bone outside the "
        "loop.",
    .find = find,
};

}  // namespace ligament::checks
