// What do the finer grains look like where the cycles are? Wired for the bones that cycles may pass, and for no others.
#pragma once

#include <optional>

#include "components.hpp"
#include "ligament/graph.hpp"

namespace ligament {

/// The graphs of a rig at each grain, the finer ones cut down to what vertices_at gives of the components with a cycle. Numbers
/// stay in file order, so that whoever takes the first of several takes the same as in the whole graph.
class CycleGraphs {
  public:
    /// `rows` and `components` of the live bone grain.
    CycleGraphs(const Rig& rig, const Dependencies& dependencies, const Rows& rows, const Condensation& components);

    /// Linear in the rig the first time, but for the wiring itself, which is linear in the cycles. A bone grain graph is whole.
    const Graph& at(Grain grain);

  private:
    const Rig& rig_;
    const Dependencies& dependencies_;
    std::vector<std::uint8_t> is_marked_;  ///< by bone
    std::optional<Graph> step_, channel_;
};

}  // namespace ligament
