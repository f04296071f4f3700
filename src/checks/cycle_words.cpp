#include "cycle_words.hpp"

#include <algorithm>

#include "words.hpp"

namespace ligament::checks {

namespace {

const std::string& end_name(const Rig& rig, const Cycle& cycle, std::uint32_t end) {
    return cycle.is_between_properties() ? rig.properties[end].name : rig.bones[end].name;
}

// A long witness is shown by its first edges and the last one, which closes it.
std::string path_words(const Checked& checked, const Cycle& cycle) {
    const std::vector<FoldedEdge>& edges = cycle.witness;
    const std::size_t shown = std::min(edges.size(), listed_at_most);
    const bool whole = shown == edges.size();
    std::string path, kinds;
    for (std::size_t i = 0; i < shown; ++i) {
        path += end_name(checked.rig, cycle, edges[i].from) + " -> ";
        kinds += (i > 0 ? ", " : "") + edge_words(checked, edges[i]);
    }
    if (!whole) path += "... -> ";
    if (!edges.empty()) path += end_name(checked.rig, cycle, edges.back().to);
    path += " at " + std::string(name_of(cycle.grain)) + " grain (" + kinds;
    if (!whole) path += "; showing " + std::to_string(shown) + " of " + std::to_string(edges.size()) + " edges";
    return path + ")";
}

}  // namespace

const Cut* cut_of(const Checked& checked, std::size_t cycle) {
    if (cycle >= checked.facts.cuts.size() || checked.facts.cuts[cycle].cut.makers.empty()) return nullptr;
    return &checked.facts.cuts[cycle].cut;
}

std::string cut_words(const Checked& checked, const Cut& cut) {
    const std::size_t shown = std::min(cut.makers.size(), listed_at_most);
    std::string words;
    for (std::size_t i = 0; i < shown; ++i) {
        if (i > 0) words += i + 1 == cut.makers.size() ? " and " : ", ";
        words += std::string(name_of(cut.makers[i].edge.kind)) + " " +
                 quoted(name_of(checked.rig, checked.dependencies, cut.makers[i].edge.maker));
    }
    if (shown < cut.makers.size())
        words += " (showing " + std::to_string(shown) + " of " + std::to_string(cut.makers.size()) + ")";
    return words + ", together at a cost of " + std::to_string(cut.cost);
}

Finding finding_about_cycle(const Checked& checked, const Check& check, const Cycle& cycle) {
    Finding finding = finding_of(check, {});
    finding.bones = cycle.bones;
    finding.message = path_words(checked, cycle);
    if (cycle.bones.size() > cycle.witness.size())
        finding.message += ", within " + counted(cycle.bones.size(), "bone") + " that need each other";
    if (!cycle.witness_is_shortest) finding.message += ", perhaps not the shortest";
    if (const std::size_t loops = cycle.cores.size(); loops > 1)
        finding.message += ", one of " + std::to_string(loops) + " separate loops";
    if (!cycle.witness.empty()) finding.place = place_of(checked.rig, checked.dependencies, cycle.witness.front().maker);
    if (cycle.bones.empty() && !cycle.witness.empty()) finding.subject = checked.rig.properties[cycle.witness.front().from].name;
    return finding;
}

}  // namespace ligament::checks
