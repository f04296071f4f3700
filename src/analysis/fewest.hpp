// How does one get from here to there over the fewest bones? Searches over edges of price 0 or 1.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "rows.hpp"

namespace ligament {

/// Compressed rows with a price on each edge.
struct PricedRows {
    Rows rows;
    std::vector<std::uint8_t> price;  ///< by position in rows.needs: 0 or 1
    std::vector<std::uint32_t> edge;  ///< by position in rows.needs: index into Graph::edges
};

/// Whether the edge into v counts as one between bones: it leaves a bone, and is no order edge inside one. Every closed walk
/// leaves a bone as often as it enters one.
inline bool leaves_a_bone(const Graph& graph, const Edge& edge) {
    return edge.from < graph.first_property && edge.kind() != EdgeKind::order;
}

/// A walk as positions in the priced rows, from its start to its end. Empty when there is none.
struct Walk {
    std::vector<std::uint32_t> positions;
    std::uint32_t end = none;
    std::uint32_t price = 0;
};

/// A search and the memory that it uses again for the next one on the same rows.
class FewestSearch {
  public:
    explicit FewestSearch(const PricedRows& graph);

    /// From a vertex of `starts` to one of `ends`, by at least one edge: of the lowest price, then of the fewest edges, then at
    /// each vertex on to the first in file order. The first edge must have a price where `starts_by_leaving`. Both lists ascend.
    /// Only walks of a price below `price_limit`. Linear.
    Walk find(std::span<const std::uint32_t> starts, std::span<const std::uint32_t> ends, bool starts_by_leaving,
              std::uint32_t price_limit = none);

    /// Takes a vertex out of all later searches.
    void remove(std::uint32_t v) { removed_[v] = 1; }
    bool is_removed(std::uint32_t v) const { return removed_[v] != 0; }

    /// Edges looked at by all searches so far.
    std::uint64_t work() const { return work_; }

  private:
    struct Label {
        std::uint32_t price = none;
        std::uint32_t edges = none;

        friend auto operator<=>(const Label&, const Label&) = default;
    };
    /// The way on from a vertex, or with the search's first edge.
    struct Step {
        std::uint32_t position = none;
        std::uint32_t to = none;
    };
    struct Queued {
        std::uint32_t vertex;
        std::uint32_t edges;
    };
    struct Closing {
        Label label;
        std::uint32_t from = none;
        Step step;
    };

    void expand(std::uint32_t v, bool starts_by_leaving, std::uint32_t price_limit);
    void close(std::uint32_t from, Label label, Step step);
    void reach(std::uint32_t from, Label label, Step step);
    bool run_level(std::uint32_t price, bool starts_by_leaving, std::uint32_t price_limit);
    Walk walk_found() const;
    void forget(std::span<const std::uint32_t> starts);

    const PricedRows& graph_;
    std::vector<Label> labels_;
    std::vector<Step> steps_;
    std::vector<std::uint8_t> removed_, is_start_, is_settled_;
    std::vector<std::uint32_t> touched_;
    std::vector<Queued> same_price_, next_price_, level_;
    Closing best_;
    std::uint64_t work_ = 0;
};

}  // namespace ligament
