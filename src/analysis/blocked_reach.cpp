#include "blocked_reach.hpp"

#include <algorithm>
#include <utility>

namespace ligament {

BlockedReach::BlockedReach(const Rows& rows, const Sweep& order, std::span<const std::uint32_t> starts, Rows candidates)
    : rows_(rows),
      order_(order),
      candidates_(std::move(candidates)),
      forward_(reversed(rows, rows.size())),
      is_start_(rows.size(), 0),
      candidate_of_(rows.size(), none),
      group_of_(rows.size(), none),
      slot_(rows.size(), none) {
    for (std::uint32_t v : starts) is_start_[v] = 1;
    is_reached_ = is_start_;
    spread_marks(rows_, order_, is_reached_);
    for (std::uint32_t c = 0; c < candidates_.size(); ++c)
        for (std::uint32_t v : candidates_.of(c)) candidate_of_[v] = c;
    for (std::uint32_t g = 0; g < order_.size(); ++g)
        for (std::uint32_t v : order_.of(g)) group_of_[v] = g;
}

MarkSet BlockedReach::avoidable(std::uint32_t v) const {
    if (is_touched(v)) return avoidable_[slot_[v]];
    return is_reached(v) ? all_ : MarkSet{};
}

void BlockedReach::look_at(std::size_t first, std::size_t count) {
    for (std::uint32_t v : touched_) slot_[v] = none;
    first_ = static_cast<std::uint32_t>(first);
    count_ = static_cast<std::uint32_t>(count);
    all_ = {};
    for (std::size_t i = 0; i < count; ++i) all_.insert(i);
    touch_from(first, count);
    std::vector<std::uint32_t> groups;
    for (std::uint32_t v : touched_)
        if (order_.of(group_of_[v]).front() == v) groups.push_back(group_of_[v]);
    std::sort(groups.begin(), groups.end());
    for (std::uint32_t group : groups) spread(order_.of(group));
}

/// Touches what the candidates lead to; of a group of several that is all or nothing.
void BlockedReach::touch_from(std::size_t first, std::size_t count) {
    touched_.clear();
    const auto touch = [&](std::uint32_t v) {
        if (slot_[v] != none) return;
        slot_[v] = static_cast<std::uint32_t>(touched_.size());
        touched_.push_back(v);
    };
    for (std::size_t c = first; c < first + count; ++c)
        for (std::uint32_t v : candidates_.of(static_cast<std::uint32_t>(c))) touch(v);
    for (std::size_t i = 0; i < touched_.size(); ++i)
        for (std::uint32_t to : forward_.of(touched_[i])) touch(to);
    reaching_.assign(touched_.size(), MarkSet{});
    avoidable_.assign(touched_.size(), MarkSet{});
    is_going_.assign(touched_.size(), 0);
}

void BlockedReach::spread(std::span<const std::uint32_t> group) {
    MarkSet reaching;
    for (std::uint32_t v : group) {
        MarkSet avoidable = is_start_[v] ? all_ : MarkSet{};
        for (std::uint32_t from : rows_.of(v)) {
            reaching |= this->reaching(from);
            avoidable |= this->avoidable(from);
        }
        if (is_own(v)) {
            avoidable.erase(candidate_of_[v] - first_);
            if (is_start_[v]) reaching.insert(candidate_of_[v] - first_);
        }
        avoidable_[slot_[v]] = avoidable;
    }
    for (std::uint32_t v : group) reaching_[slot_[v]] = reaching;
    if (group.size() > 1) let_grow(group);
}

/// Sets only grow, each by at most the candidates looked at, so that it comes to an end.
void BlockedReach::let_grow(std::span<const std::uint32_t> group) {
    const std::uint32_t own_group = group_of_[group.front()];
    std::vector<std::uint32_t> going(group.begin(), group.end());
    for (std::uint32_t v : going) is_going_[slot_[v]] = 1;
    for (std::size_t i = 0; i < going.size(); ++i) {
        const std::uint32_t v = going[i];
        is_going_[slot_[v]] = 0;
        for (std::uint32_t to : forward_.of(v)) {
            if (group_of_[to] != own_group) continue;
            MarkSet grown = avoidable_[slot_[to]];
            grown |= avoidable_[slot_[v]];
            if (is_own(to)) grown.erase(candidate_of_[to] - first_);
            if (grown == avoidable_[slot_[to]]) continue;
            avoidable_[slot_[to]] = grown;
            if (!is_going_[slot_[to]]) going.push_back(to);
            is_going_[slot_[to]] = 1;
        }
    }
}

}  // namespace ligament
