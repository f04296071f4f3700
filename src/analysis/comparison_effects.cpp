#include "comparison_effects.hpp"

#include <algorithm>
#include <map>
#include <unordered_map>
#include <unordered_set>

namespace ligament {

namespace {

std::uint64_t pair_of(std::uint32_t a, std::uint32_t b) { return std::uint64_t{a} << 32U | b; }

/// Those of `news` that none of `olds` has become, and those of `olds` that none of `news` was. Both are in file order.
struct ListChange {
    std::vector<std::uint32_t> gained, lost;
};

ListChange compare_lists(const std::vector<std::uint32_t>& olds, const std::vector<std::uint32_t>& news,
                         const Counterparts& ids) {
    const std::unordered_set<std::uint32_t> was(olds.begin(), olds.end()), is(news.begin(), news.end());
    ListChange change;
    for (const std::uint32_t n : news)
        if (ids.before[n] == none || !was.contains(ids.before[n])) change.gained.push_back(n);
    for (const std::uint32_t o : olds)
        if (ids.after[o] == none || !is.contains(ids.after[o])) change.lost.push_back(o);
    return change;
}

}  // namespace

void compare_links(const Revision& before, const Revision& after, Comparison& comparison) {
    const Counterparts& bones = comparison.matching.bones;
    const std::vector<FoldedEdge> olds = find_links(before.rig, before.dependencies),
                                  news = find_links(after.rig, after.dependencies);
    std::unordered_set<std::uint64_t> was, is;
    for (const FoldedEdge& link : olds) was.insert(pair_of(link.from, link.to));
    for (const FoldedEdge& link : news) is.insert(pair_of(link.from, link.to));
    const auto is_in = [](const std::unordered_set<std::uint64_t>& links, std::uint32_t from, std::uint32_t to) {
        return from != none && to != none && links.contains(pair_of(from, to));
    };
    for (const FoldedEdge& link : news)
        if (!is_in(was, bones.before[link.from], bones.before[link.to])) comparison.links.added.push_back(link);
    for (const FoldedEdge& link : olds)
        if (!is_in(is, bones.after[link.from], bones.after[link.to])) comparison.links.removed.push_back(link);

    // Pairs that were linked in one revision and are evaluated the other way round in the other.
    const auto places = [](const Revision& of) {
        std::vector<std::uint32_t> place(of.rig.bones.size());
        for (std::uint32_t i = 0; i < of.facts.order.bones.size(); ++i) place[of.facts.order.bones[i]] = i;
        return place;
    };
    const std::vector<std::uint32_t> old_place = places(before), new_place = places(after);
    std::unordered_set<std::uint64_t> told;
    const auto look_at = [&](BoneId o, BoneId other) {
        if (o == none || other == none || o == other) return;
        if (old_place[o] > old_place[other]) std::swap(o, other);
        const BoneId n = bones.after[o], n_other = bones.after[other];
        if (n == none || n_other == none || new_place[n] < new_place[n_other]) return;
        if (told.insert(pair_of(o, other)).second) comparison.order.turned.push_back({o, other, n_other, n});
    };
    for (const FoldedEdge& link : olds) look_at(link.from, link.to);
    for (const FoldedEdge& link : news) look_at(bones.before[link.from], bones.before[link.to]);
    std::sort(comparison.order.turned.begin(), comparison.order.turned.end(), [](const Turned& a, const Turned& b) {
        return std::pair(a.now_first, a.now_then) < std::pair(b.now_first, b.now_then);
    });
}

namespace {

/// A state as both revisions can name it: the property after and its value.
using SharedState = std::pair<PropertyId, double>;

/// By state in which the bone is worse than in the default one: how, and where it is told. States that one revision alone can be
/// in are left out.
std::map<SharedState, const Worse*> states_of(const Revision& of, std::size_t place, const std::vector<PropertyId>* to_after,
                                              const std::vector<std::vector<double>>& stops_of_other) {
    std::map<SharedState, const Worse*> states;
    for (const Worse& worse : of.facts.switches.worse[place]) {
        const Setting setting = worse.settings.front();
        const Switch& of_switch = of.facts.switches.switches[setting.switch_index];
        const PropertyId property = to_after ? (*to_after)[of_switch.property] : of_switch.property;
        const double value =
            setting.stop == none ? of.rig.properties[of_switch.property].initial : of_switch.stops[setting.stop].value;
        if (property == none) continue;
        const std::vector<double>& others = stops_of_other[property];
        if (std::find(others.begin(), others.end(), value) != others.end()) states.emplace(SharedState{property, value}, &worse);
    }
    return states;
}

/// By property after: the values of the stops of a revision's switches, and their defaults.
std::vector<std::vector<double>> stops_by_property(const Revision& of, std::size_t properties,
                                                   const std::vector<PropertyId>* to_after) {
    std::vector<std::vector<double>> stops(properties);
    for (const Switch& one : of.facts.switches.switches) {
        const PropertyId property = to_after ? (*to_after)[one.property] : one.property;
        if (property == none) continue;
        for (const Stop& stop : one.stops) stops[property].push_back(stop.value);
        stops[property].push_back(of.rig.properties[one.property].initial);
    }
    return stops;
}

struct VerdictComparer {
    const Revision& before;
    const Revision& after;
    const Matching& matching;
    std::vector<std::vector<double>> old_stops, new_stops;

    void compare_states(std::size_t old_place, std::size_t new_place, VerdictChange& change) const {
        const auto olds = states_of(before, old_place, &matching.properties.after, new_stops);
        const auto news = states_of(after, new_place, nullptr, old_stops);
        const Verdict was = *change.was, is = *change.is;
        // Every state is named in one of the lists, or as bad as the default state.
        for (const auto& [state, worse] : news) {
            const auto found = olds.find(state);
            if (worse->verdict > (found == olds.end() ? was : found->second->verdict)) change.lost_in.push_back(*worse);
        }
        for (const auto& [state, worse] : olds) {
            const auto found = news.find(state);
            if (worse->verdict > (found == news.end() ? is : found->second->verdict)) change.no_longer_in.push_back(*worse);
        }
    }
};

}  // namespace

void compare_verdicts(const Revision& before, const Revision& after, Comparison& comparison) {
    const Matching& matching = comparison.matching;
    const std::size_t properties = after.rig.properties.size();
    const VerdictComparer comparer{before, after, matching, stops_by_property(before, properties, &matching.properties.after),
                                   stops_by_property(after, properties, nullptr)};
    const std::vector<Attachment>&olds = before.facts.attachment.deform, &news = after.facts.attachment.deform;
    std::vector<std::uint32_t> old_place(before.rig.bones.size(), none);
    std::vector<bool> is_deform(after.rig.bones.size());
    for (std::uint32_t i = 0; i < olds.size(); ++i) old_place[olds[i].bone] = i;
    const auto keep_alone = [&](VerdictChange change, Verdict verdict) {
        if (verdict != Verdict::attached) comparison.verdicts.push_back(std::move(change));
    };
    for (std::uint32_t i = 0; i < news.size(); ++i) {
        VerdictChange change;
        change.after = news[i].bone;
        is_deform[change.after] = true;
        change.is = news[i].verdict;
        change.before = matching.bones.before[change.after];
        const std::uint32_t place = change.before == none ? none : old_place[change.before];
        if (place == none) {
            change.is_worse = true;
            keep_alone(change, news[i].verdict);
            continue;
        }
        change.was = olds[place].verdict;
        comparer.compare_states(place, i, change);
        change.is_worse = *change.is > *change.was || !change.lost_in.empty();
        change.is_better = *change.is < *change.was || !change.no_longer_in.empty();
        if (change.is_worse || change.is_better) comparison.verdicts.push_back(std::move(change));
    }
    for (const Attachment& old_one : olds) {
        const BoneId now = matching.bones.after[old_one.bone];
        if (now != none && is_deform[now]) continue;
        VerdictChange change;
        change.before = old_one.bone, change.after = now;
        change.was = old_one.verdict;
        change.is_better = true;
        keep_alone(change, old_one.verdict);
    }
}

void compare_order(const Revision& before, const Revision& after, Comparison& comparison) {
    const Order &was = before.facts.order, &is = after.facts.order;
    comparison.order.chain_before = was.longest_chain.size();
    comparison.order.chain_after = is.longest_chain.size();
    for (BoneId n = 0; n < after.rig.bones.size(); ++n) {
        const BoneId o = comparison.matching.bones.before[n];
        if (o != none && was.level[o] != is.level[n]) comparison.order.levels.push_back({o, n, was.level[o], is.level[n]});
    }
    // The fewest bones that have to move are those outside a longest rising row (patience sorting, Schensted 1961).
    std::vector<BoneId> piles;
    std::size_t kept = 0;
    for (BoneId n = 0; n < after.rig.bones.size(); ++n) {
        const BoneId o = comparison.matching.bones.before[n];
        if (o == none) continue;
        ++kept;
        const auto pile = std::lower_bound(piles.begin(), piles.end(), o);
        if (pile == piles.end())
            piles.push_back(o);
        else
            *pile = o;
    }
    comparison.moved_in_file = kept - piles.size();
}

namespace {

/// Who moves each bone, in the default state; only of deform bones where the rig is large.
std::vector<std::vector<BoneId>> movers_of(const Revision& of, bool all) {
    std::vector<std::vector<BoneId>> movers(of.rig.bones.size());
    if (!all) {
        for (const Attachment& entry : of.facts.attachment.deform) movers[entry.bone] = entry.controls;
        return movers;
    }
    Rig judged = of.rig;  // who moves a bone does not hang on roles: as if all deformed
    for (Bone& bone : judged.bones) bone.deform = true;
    for (Attachment& entry : find_attachment(judged, of.dependencies, default_state(judged)).deform)
        movers[entry.bone] = std::move(entry.controls);
    return movers;
}

std::size_t reach_size(const Rig& rig) {
    const auto controls = std::count_if(rig.bones.begin(), rig.bones.end(), [](const Bone& bone) { return bone.control; });
    return rig.bones.size() * static_cast<std::size_t>(controls);
}

}  // namespace

void compare_reach(const Revision& before, const Revision& after, Comparison& comparison) {
    comparison.deform_reach_listed = before.facts.attachment.controls_listed && after.facts.attachment.controls_listed;
    comparison.other_reach_listed =
        comparison.deform_reach_listed && reach_size(before.rig) <= reach_limit && reach_size(after.rig) <= reach_limit;
    if (!comparison.deform_reach_listed) return;
    const bool all = comparison.other_reach_listed;
    const auto olds = movers_of(before, all), news = movers_of(after, all);
    const Counterparts& bones = comparison.matching.bones;
    for (BoneId n = 0; n < news.size(); ++n) {
        const BoneId o = bones.before[n];
        if (o == none) continue;
        // Where only deform bones are looked at, what deforms in one revision alone has no list in the other.
        if (!all && (before.rig.bones[o].deform != after.rig.bones[n].deform)) continue;
        ListChange change = compare_lists(olds[o], news[n], bones);
        if (!change.gained.empty() || !change.lost.empty())
            comparison.reach.push_back({o, n, std::move(change.gained), std::move(change.lost)});
    }
}

void compare_switches(const Revision& before, const Revision& after, Comparison& comparison) {
    const std::vector<Switch>&olds = before.facts.switches.switches, &news = after.facts.switches.switches;
    const Matching& matching = comparison.matching;
    std::unordered_map<PropertyId, const Switch*> of_property;
    for (const Switch& one : olds) of_property.emplace(one.property, &one);
    const auto stop_text = [](const std::vector<Stop>& some, const std::vector<Stop>& others) {
        std::vector<std::string> names;
        for (const Stop& stop : some)
            if (std::none_of(others.begin(), others.end(),
                             [&](const Stop& s) { return s.name == stop.name && s.value == stop.value; }))
                names.push_back(stop.name);
        return names;
    };
    static const Switch nothing;
    const auto keep = [&](PropertyId o, PropertyId n, const Switch& was, const Switch& is) {
        ListChange change = compare_lists(was.constraints, is.constraints, matching.constraints);
        SwitchChange told{o,
                          n,
                          std::move(change.gained),
                          std::move(change.lost),
                          stop_text(is.stops, was.stops),
                          stop_text(was.stops, is.stops)};
        const bool is_same = told.gained.empty() && told.lost.empty() && told.stops_gained.empty() && told.stops_lost.empty();
        if (!is_same || o == none || n == none) comparison.switches.push_back(std::move(told));
    };
    for (const Switch& is : news) {
        const PropertyId o = matching.properties.before[is.property];
        const auto found = o == none ? of_property.end() : of_property.find(o);
        if (found == of_property.end()) {
            keep(none, is.property, nothing, is);
            continue;
        }
        keep(o, is.property, *found->second, is);
        of_property.erase(found);
    }
    for (const Switch& was : olds)
        if (of_property.contains(was.property)) keep(was.property, none, was, nothing);
}

}  // namespace ligament
