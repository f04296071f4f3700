#include "cycle_index.hpp"

namespace ligament {

CycleIndex::CycleIndex(const Report& report) {
    for (std::size_t i = 0; i < report.facts.cycles.size(); ++i) {
        const Cycle& cycle = report.facts.cycles[i];
        if (!cycle.bones.empty())
            by_bone_.emplace(cycle.bones.front(), i);
        else if (!cycle.witness.empty())
            by_property_.emplace(report.rig.properties[cycle.witness.front().from].name, i);
    }
}

std::optional<std::size_t> CycleIndex::find(const Finding& finding) const {
    if (finding.check != "cycle" && finding.check != "cycle-by-bone") return {};
    if (finding.bones.empty()) {
        const auto found = by_property_.find(finding.subject);
        return found == by_property_.end() ? std::nullopt : std::optional(found->second);
    }
    const auto found = by_bone_.find(finding.bones.front());
    return found == by_bone_.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace ligament
