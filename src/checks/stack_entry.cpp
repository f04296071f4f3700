#include "stack_entry.hpp"

#include <algorithm>
#include <tuple>

namespace ligament::checks {

namespace {

std::weak_ordering compare_numbers(double a, double b) {
    return a < b ? std::weak_ordering::less : b < a ? std::weak_ordering::greater : std::weak_ordering::equivalent;
}

std::weak_ordering compare_sources(const Source& a, const Source& b) {
    const auto read = [](const Source& source) { return std::tie(source.use, source.bone, source.object, source.curved); };
    if (const auto order = read(a) <=> read(b); order != 0) return order;
    return compare_numbers(a.at, b.at);
}

// Kinds that write scalar channels by a list of their own; of the others the kind says what they write.
Channels listed_channels(const Constraint& constraint) {
    const bool lists = constraint.kind == ConstraintKind::transform || constraint.kind == ConstraintKind::limit;
    return lists ? constraint.channels : Channels{0};
}

}  // namespace

std::weak_ordering compare_entries(const Constraint& a, const Constraint& b) {
    const auto settings = [](const Constraint& c) {
        return std::tuple(c.kind, c.space, c.axes, c.chain, listed_channels(c), c.reads, c.writes, c.align, c.orient);
    };
    if (const auto order = settings(a) <=> settings(b); order != 0) return order;
    const auto sources = std::lexicographical_compare_three_way(a.sources.begin(), a.sources.end(), b.sources.begin(),
                                                                b.sources.end(), compare_sources);
    if (sources != 0) return sources;
    if (a.axis != b.axis) return a.axis <=> b.axis;
    return a.label.value_or({}) <=> b.label.value_or({});
}

std::weak_ordering compare_stacks(const Bone& a, const Bone& b) {
    const auto next_live = [](const Bone& bone, std::size_t i) {
        while (i < bone.constraints.size() && bone.constraints[i].is_inert()) ++i;
        return i;
    };
    for (std::size_t i = 0, j = 0;; ++i, ++j) {
        i = next_live(a, i);
        j = next_live(b, j);
        const bool ends = i == a.constraints.size(), other_ends = j == b.constraints.size();
        if (ends || other_ends) return other_ends <=> ends;
        if (const auto order = compare_entries(a.constraints[i], b.constraints[j]); order != 0) return order;
    }
}

}  // namespace ligament::checks
