// Which bones need each other in a ring that a host cannot evaluate?
#include "cycle_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

std::string hint_for(const Checked& checked, std::size_t index) {
    const Cut* cut = cut_of(checked, index);
    if (cut == nullptr) return {};
    if (cut->makers.size() > 1) return "cut it at " + cut_words(checked, *cut) + ": let each read something outside the loop";
    const FoldedEdge& edge = cut->makers.front().edge;
    const std::string maker = name_of(checked.rig, checked.dependencies, edge.maker);
    if (cut->between_properties) return "let the driver of " + quoted(maker) + " read a property that does not come from it";
    const std::string& from = checked.rig.bones[edge.from].name;
    switch (checked.dependencies.makers[edge.maker].kind) {
        case Maker::Kind::parent_link:
            return "hang " + quoted(maker) + " under a bone that does not need it, instead of " + quoted(from);
        case Maker::Kind::driver:
            return "let the driver of " + quoted(maker) + " read something that does not move with " +
                   quoted(checked.rig.bones[edge.to].name);
        default:
            return "let " + quoted(maker) + " read a bone outside the loop instead of " + quoted(from) + ", or give it up";
    }
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    for (std::size_t i = 0; i < checked.facts.cycles.size(); ++i) {
        const Cycle& cycle = checked.facts.cycles[i];
        if (cycle.grain == Grain::bone) continue;
        findings.push_back(finding_about_cycle(checked, self, cycle));
        findings.back().hint = hint_for(checked, i);
    }
}

}  // namespace

extern constinit const Check cycle{
    .name = "cycle",
    .severity = Severity::error,
    .summary = "a cycle at channel or step grain",
    .what =
        "Bones need each other in a ring: what one of them is cannot be computed before what it needs, and that needs the first. "
        "At channel grain the ring is real in any host; at step grain in hosts that compute whole transforms. The finding shows "
        "a shortest loop edge by edge.",
    .harm =
        "A host breaks such a ring at a place of its own choice, so that bones lag a frame, jump, or differ between two "
        "machines.",
    .mend =
        "Let one edge go: read a control above the loop, hang a target under the world instead of under the chain that it "
        "steers, or read one channel only where that is all that is needed.",
    .find = find,
};

}  // namespace ligament::checks
