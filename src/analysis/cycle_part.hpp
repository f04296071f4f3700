// What does a cycle's component consist of at a grain? Its vertices and live edges, numbered on their own.
#pragma once

#include "components.hpp"
#include "cycle_graphs.hpp"
#include "ligament/cycles.hpp"
#include "sweep.hpp"

namespace ligament {

/// A part of a graph: the live edges among some of its vertices.
struct CyclePart {
    const Graph* graph = nullptr;      ///< of the cutter
    std::vector<VertexId> vertices;    ///< ascending; the place here is the number
    Rows rows;                         ///< what each needs
    std::vector<std::uint32_t> edges;  ///< by position in rows.needs: index into Graph::edges
};

/// Cuts parts out of the graphs of a rig, one after the other, each at the cost of its own size.
class PartCutter {
  public:
    PartCutter(const Rig& rig, const Dependencies& dependencies);

    /// The component of the live bone grain in which the cycle lies, at a grain.
    CyclePart cut_out(const Cycle& cycle, Grain grain);

  private:
    PartCutter(const Rig& rig, const Dependencies& dependencies, const Rows& rows);

    const Dependencies& dependencies_;
    Condensation components_;  ///< of the live bone grain
    CycleGraphs graphs_;
    std::vector<std::vector<std::uint32_t>> number_;  ///< by grain, by vertex: place in the part at hand, else none
};

/// Tells edges of a part between its bones, or between its properties.
class PartFolder {
  public:
    PartFolder(const Dependencies& dependencies, const CyclePart& part, bool between_properties);

    /// The edge at a position of the part's rows: from the nearest bone that leads to it to the nearest one that it leads to,
    /// first in the order of the part among equally near ones; `none` where there is no such bone.
    FoldedEdge fold(std::uint32_t from, std::uint32_t to, std::uint32_t position);

  private:
    std::uint32_t end_of(std::uint32_t v) const;
    std::uint32_t nearest(std::uint32_t start, const Rows& rows);

    const Dependencies& dependencies_;
    const CyclePart& part_;
    bool between_properties_;
    Rows needed_by_;
    std::vector<std::uint32_t> seen_, queue_;
    std::uint32_t search_ = 0;
};

}  // namespace ligament
