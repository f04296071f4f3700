#include "fewest.hpp"

#include <tuple>

namespace ligament {

FewestSearch::FewestSearch(const PricedRows& graph)
    : graph_(graph),
      labels_(graph.rows.size()),
      steps_(graph.rows.size()),
      removed_(graph.rows.size(), 0),
      is_start_(graph.rows.size(), 0),
      is_settled_(graph.rows.size(), 0) {}

// Runs from the ends against the edges, level by level of the price; inside a level by the number of edges. A vertex's step is
// then the first in file order among those that continue it best, because all of them are settled before it.
Walk FewestSearch::find(std::span<const std::uint32_t> starts, std::span<const std::uint32_t> ends, bool starts_by_leaving,
                        std::uint32_t price_limit) {
    best_ = {};
    for (std::uint32_t v : starts) is_start_[v] = 1;
    level_.clear();
    for (std::uint32_t v : ends) {
        labels_[v] = {0, 0};
        touched_.push_back(v);
        level_.push_back({v, 0});
    }
    for (std::uint32_t price = 0; !level_.empty() && price < price_limit; ++price) {
        if (!run_level(price, starts_by_leaving, price_limit)) break;
        level_.swap(next_price_);
    }
    Walk walk = walk_found();
    forget(starts);
    return walk;
}

/// Settles all vertices of one price; level_ and same_price_ are both sorted by the number of edges. False when nothing better
/// than best_ can follow.
bool FewestSearch::run_level(std::uint32_t price, bool starts_by_leaving, std::uint32_t price_limit) {
    same_price_.clear();
    next_price_.clear();
    std::size_t old = 0, young = 0;
    while (old < level_.size() || young < same_price_.size()) {
        const bool from_old =
            young == same_price_.size() || (old < level_.size() && level_[old].edges <= same_price_[young].edges);
        const Queued next = from_old ? level_[old++] : same_price_[young++];
        const Label label{price, next.edges};
        if (is_settled_[next.vertex] || labels_[next.vertex] != label) continue;
        if (label >= best_.label) return false;
        is_settled_[next.vertex] = 1;
        expand(next.vertex, starts_by_leaving, price_limit);
    }
    return true;
}

void FewestSearch::expand(std::uint32_t v, bool starts_by_leaving, std::uint32_t price_limit) {
    const Rows& rows = graph_.rows;
    work_ += rows.first[v + 1] - rows.first[v];
    for (std::uint32_t position = rows.first[v]; position < rows.first[v + 1]; ++position) {
        const std::uint32_t from = rows.needs[position];
        if (removed_[from]) continue;
        const std::uint8_t price = graph_.price[position];
        const Label label{labels_[v].price + price, labels_[v].edges + 1};
        if (label.price >= price_limit) continue;
        if (is_start_[from] && (price != 0 || !starts_by_leaving)) close(from, label, {position, v});
        reach(from, label, {position, v});
    }
}

void FewestSearch::close(std::uint32_t from, Label label, Step step) {
    if (std::tie(label, from, step.to) < std::tie(best_.label, best_.from, best_.step.to)) best_ = {label, from, step};
}

void FewestSearch::reach(std::uint32_t from, Label label, Step step) {
    if (label == labels_[from] && step.to < steps_[from].to && label.edges > 0) steps_[from] = step;
    if (label >= labels_[from]) return;
    const bool same = label.price == labels_[step.to].price;
    if (labels_[from].price == none) touched_.push_back(from);
    labels_[from] = label;
    steps_[from] = step;
    (same ? same_price_ : next_price_).push_back({from, label.edges});
}

Walk FewestSearch::walk_found() const {
    Walk walk;
    if (best_.from == none) return walk;
    walk.price = best_.label.price;
    walk.positions.push_back(best_.step.position);
    walk.end = best_.step.to;
    for (; labels_[walk.end].edges != 0; walk.end = steps_[walk.end].to) walk.positions.push_back(steps_[walk.end].position);
    return walk;
}

void FewestSearch::forget(std::span<const std::uint32_t> starts) {
    for (std::uint32_t v : starts) is_start_[v] = 0;
    for (std::uint32_t v : touched_) {
        labels_[v] = {};
        steps_[v] = {};
        is_settled_[v] = 0;
    }
    touched_.clear();
}

}  // namespace ligament
