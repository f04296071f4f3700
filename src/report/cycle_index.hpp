// Which cycle is a finding about?
#pragma once

#include <map>
#include <optional>
#include <string_view>

#include "ligament/report.hpp"

namespace ligament {

/// Finds the place in Facts::cycles of the cycle that a finding of `cycle` or `cycle-by-bone` speaks of. Components of cycles
/// share neither bones nor properties, so the first one tells. Refers to the report's rig.
class CycleIndex {
  public:
    explicit CycleIndex(const Report& report);

    /// Nothing for findings of other checks.
    std::optional<std::size_t> find(const Finding& finding) const;

  private:
    std::map<BoneId, std::size_t> by_bone_;
    std::map<std::string_view, std::size_t> by_property_;
};

}  // namespace ligament
