// Which cycles came, went, grew or shrank?
#include <algorithm>
#include <map>
#include <tuple>

#include "comparison_effects.hpp"

namespace ligament {

std::string_view name_of(CycleChange::How how) {
    static constexpr std::array<std::string_view, 8> names{"new",     "gone",      "grown",  "shrunk",
                                                           "shifted", "split off", "merged", "at another grain"};
    return names[static_cast<std::size_t>(how)];
}

namespace {

/// Bones and properties of cycles in the numbers of the rig after; what is only before keeps out of it.
struct Members {
    std::vector<std::uint32_t> cycle_of_bone, cycle_of_property;  ///< by id: place in the cycles
};

Members members_of(const Revision& of) {
    Members members{std::vector<std::uint32_t>(of.rig.bones.size(), none),
                    std::vector<std::uint32_t>(of.rig.properties.size(), none)};
    for (std::uint32_t c = 0; c < of.facts.cycles.size(); ++c) {
        for (const BoneId bone : of.facts.cycles[c].bones) members.cycle_of_bone[bone] = c;
        for (const PropertyId property : of.facts.cycles[c].properties) members.cycle_of_property[property] = c;
    }
    return members;
}

/// How many bones, or properties where there are no bones, two cycles share.
std::vector<std::tuple<std::size_t, std::uint32_t, std::uint32_t>> overlaps_of(const Revision& before, const Revision& after,
                                                                               const Matching& matching) {
    const Members olds = members_of(before);
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::size_t> shared;
    for (std::uint32_t c = 0; c < after.facts.cycles.size(); ++c) {
        const Cycle& cycle = after.facts.cycles[c];
        for (const BoneId bone : cycle.bones)
            if (const BoneId o = matching.bones.before[bone]; o != none && olds.cycle_of_bone[o] != none)
                ++shared[{olds.cycle_of_bone[o], c}];
        if (!cycle.bones.empty()) continue;
        for (const PropertyId property : cycle.properties)
            if (const PropertyId o = matching.properties.before[property]; o != none && olds.cycle_of_property[o] != none)
                if (before.facts.cycles[olds.cycle_of_property[o]].bones.empty()) ++shared[{olds.cycle_of_property[o], c}];
    }
    std::vector<std::tuple<std::size_t, std::uint32_t, std::uint32_t>> overlaps;
    for (const auto& [pair, count] : shared) overlaps.emplace_back(count, pair.first, pair.second);
    std::sort(overlaps.begin(), overlaps.end(), [](const auto& a, const auto& b) {  // most first, then in file order
        const auto key = [](const auto& t) {
            return std::tuple(~std::get<0>(t), std::get<1>(t) + std::get<2>(t), std::get<1>(t));
        };
        return key(a) < key(b);
    });
    return overlaps;
}

void tell_members(const Revision& before, const Revision& after, const Matching& matching, CycleChange& change) {
    const auto differ = [](const std::vector<BoneId>& some, const std::vector<BoneId>& others,
                           const std::vector<BoneId>& to_other) {
        std::vector<BoneId> missing;
        for (const BoneId bone : some)
            if (to_other[bone] == none || !std::binary_search(others.begin(), others.end(), to_other[bone]))
                missing.push_back(bone);
        return missing;
    };
    static const std::vector<BoneId> nothing;
    const auto& was = change.before == none ? nothing : before.facts.cycles[change.before].bones;
    const auto& is = change.after == none ? nothing : after.facts.cycles[change.after].bones;
    change.gained = differ(is, was, matching.bones.before);
    change.lost = differ(was, is, matching.bones.after);
}

}  // namespace

void compare_cycles(const Revision& before, const Revision& after, Comparison& comparison) {
    const std::vector<Cycle>&olds = before.facts.cycles, &news = after.facts.cycles;
    const Matching& matching = comparison.matching;
    std::vector<std::uint32_t> to_new(olds.size(), none), to_old(news.size(), none);
    std::vector<bool> old_overlaps(olds.size()), new_overlaps(news.size());
    for (const auto& [count, o, n] : overlaps_of(before, after, matching)) {
        old_overlaps[o] = new_overlaps[n] = true;
        if (to_new[o] == none && to_old[n] == none) to_new[o] = n, to_old[n] = o;
    }
    const Members old_members = members_of(before);
    const auto was_free = [&](BoneId bone) {
        const BoneId o = matching.bones.before[bone];
        return o == none || old_members.cycle_of_bone[o] == none;
    };
    using How = CycleChange::How;
    for (std::uint32_t n = 0; n < news.size(); ++n) {
        CycleChange change;
        change.before = to_old[n], change.after = n;
        tell_members(before, after, matching, change);
        const bool has_fresh = std::any_of(change.gained.begin(), change.gained.end(), was_free);
        if (change.before == none) {
            change.how = new_overlaps[n] ? How::split : How::added;
            change.is_worse = !new_overlaps[n] || has_fresh;
        } else {
            const Grain was = olds[change.before].grain, is = news[n].grain;
            const bool has_grown = !change.gained.empty(), has_shrunk = !change.lost.empty();
            if (!has_grown && !has_shrunk && was == is) continue;
            change.how = has_grown ? (has_shrunk ? How::shifted : How::grown) : has_shrunk ? How::shrunk : How::regrained;
            change.is_worse = has_grown || is > was;  // a finer grain: real in more hosts
        }
        comparison.cycles.push_back(std::move(change));
    }
    for (std::uint32_t o = 0; o < olds.size(); ++o) {
        if (to_new[o] != none) continue;
        CycleChange change;
        change.before = o;
        change.how = old_overlaps[o] ? How::merged : How::gone;
        tell_members(before, after, matching, change);
        comparison.cycles.push_back(std::move(change));
    }
}

}  // namespace ligament
