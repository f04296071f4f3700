#include "switch_facts.hpp"

#include <algorithm>
#include <functional>
#include <iterator>
#include <map>
#include <set>
#include <utility>

#include "side_by_side.hpp"
#include "touching.hpp"

namespace ligament {

namespace {

/// `count` things shared out: where a half begins, and with half + 1 where it ends.
std::size_t start_of(std::size_t half, std::size_t count) { return half * count / 2; }

/// How many of the sets are the first half. A combination may be one of several sets, and is compared with those that it
/// contains: sets that have two switches in common are not parted. Where that takes long to find out, or leaves no choice, there
/// is one half.
std::size_t first_half_of(const std::vector<InteractingSet>& sets) {
    constexpr std::size_t most_pairs = 100'000;
    std::size_t pairs = 0;
    for (const InteractingSet& set : sets) pairs += set.switches.size() * set.switches.size() / 2;
    if (sets.size() < 2 || pairs > most_pairs) return sets.size();
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::size_t> first_with;
    std::vector<std::size_t> reaches_back(sets.size(), 0);  // by set: the first one that has two switches in common with it
    for (std::size_t s = 0; s < sets.size(); ++s) {
        reaches_back[s] = s;
        for (auto a = sets[s].switches.begin(); a != sets[s].switches.end(); ++a)
            for (auto b = a + 1; b != sets[s].switches.end(); ++b)
                reaches_back[s] = std::min(reaches_back[s], first_with.try_emplace({*a, *b}, s).first->second);
    }
    const auto unevenness = [&](std::size_t half) { return std::max(2 * half, sets.size()) - std::min(2 * half, sets.size()); };
    std::size_t best = sets.size(), first_reached = sets.size();
    for (std::size_t half = sets.size(); half-- > 1;) {
        first_reached = std::min(first_reached, reaches_back[half]);
        if (first_reached == half && unevenness(half) < unevenness(best)) best = half;
    }
    return best;
}

template <class T>
void append_each(std::vector<std::vector<T>>& to, std::vector<std::vector<T>>& more) {
    for (std::size_t i = 0; i < to.size(); ++i)
        to[i].insert(to[i].end(), std::make_move_iterator(more[i].begin()), std::make_move_iterator(more[i].end()));
}

}  // namespace

/// Half of the stops of all switches, in order, and what comes of half of the constraints by default.
void SwitchSearch::look_at_half_of_singles(std::size_t half) {
    StateLooks& looks = looks_of(half);
    looks.trials = trials_[half];
    const std::size_t constraints = dependencies_.constraints.size();
    looks.look_at_default(static_cast<ConstraintId>(start_of(half, constraints)),
                          static_cast<ConstraintId>(start_of(half + 1, constraints)));
    std::size_t count = 0, at = 0;
    for (const Switch& of : ground_->switches) count += of.stops.size();
    for (std::uint32_t index = 0; index < ground_->switches.size(); ++index)
        for (std::uint32_t stop = 0; stop < ground_->switches[index].stops.size(); ++stop, ++at)
            if (at >= start_of(half, count) && at < start_of(half + 1, count)) looks.look_at_single({index, stop});
    trials_[half] = looks.trials;
}

void SwitchSearch::look_at_single_states(SwitchFacts& facts, unsigned workers) {
    const std::array<std::function<void()>, 3> works{
        [&] { look_at_half_of_singles(0); }, [&] { look_at_half_of_singles(1); },
        [&] {
            facts.sets = find_interacting_sets(
                rig_, ground_->switches, find_touching(rig_, dependencies_, live_.needed_by, live_.order, ground_->switches));
        }};
    do_side_by_side(works, workers);
    facts.worse = std::move(first_->worse);
    facts.live_in = std::move(first_->live_in);
    if (second_) {
        append_each(facts.worse, second_->worse);
        append_each(facts.live_in, second_->live_in);
    }
    for (std::uint32_t c = 0; c < facts.live_in.size(); ++c)
        if (first_->is_left_by_default(c)) facts.live_in[c].insert(facts.live_in[c].begin(), Settings{});
    facts.looked_at = 1;
    for (const Switch& of : ground_->switches) facts.looked_at += of.stops.size();
}

/// Of each of these sets at most `limit`. How many there were, those of several sets counted once.
std::uint64_t SwitchSearch::look_at_half_of_sets(std::size_t half, std::span<InteractingSet> sets, std::uint64_t limit,
                                                 const std::vector<std::vector<Worse>>& worse_alone) {
    StateLooks& looks = looks_of(half);
    looks.trials = trials_[half];
    std::set<Settings> seen;  // a combination may be one of several sets
    for (InteractingSet& set_of : sets) {
        Combinations combinations(rig_, ground_->switches, set_of);
        while (set_of.looked_at < limit) {
            const Settings& settings = combinations.next();
            if (settings.empty()) break;
            ++set_of.looked_at;
            if (seen.insert(settings).second) looks.look_at_combination(settings, worse_alone);
        }
    }
    return seen.size();
}

void SwitchSearch::look_at_combinations(SwitchFacts& facts, unsigned workers) {
    const std::span<InteractingSet> sets = facts.sets;
    if (!sets.empty()) {
        const std::uint64_t limit = std::clamp<std::uint64_t>(combination_limit_of_rig / sets.size(), 1, combination_limit);
        const std::size_t half = first_half_of(facts.sets);
        std::array<std::uint64_t, 2> looked_at{};
        const std::array<std::function<void()>, 2> works{
            [&] { looked_at[0] = look_at_half_of_sets(0, sets.first(half), limit, facts.worse); },
            [&] { looked_at[1] = look_at_half_of_sets(1, sets.subspan(half), limit, facts.worse); }};
        do_side_by_side(works, workers);
        facts.looked_at += looked_at[0] + looked_at[1];
    }
    facts.worse_yet = std::move(first_->worse_yet);
    if (second_) append_each(facts.worse_yet, second_->worse_yet);
}

SwitchFacts SwitchSearch::find(unsigned workers) {
    SwitchFacts facts;
    first_.emplace(*ground_, live_.needed_by, std::move(*walk_));
    if (workers > 1) second_.emplace(*first_);
    look_at_single_states(facts, workers);
    look_at_combinations(facts, workers);
    for (ConstraintId id = 0; id < first_->works.size(); ++id) {
        const Work work = second_ ? std::max(first_->works[id], second_->works[id]) : first_->works[id];
        if (work == Work::done) continue;
        facts.dead.push_back(id);
        facts.dead_is_replaced.push_back(work == Work::replaced);
    }
    facts.gaps = find_switch_gaps(dependencies_, ground_->runs, ground_->switches);
    facts.switches = std::move(ground_->switches);
    return facts;
}

SwitchFacts find_switch_facts(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles) {
    const LiveMotion live = find_live_motion(dependencies);
    SwitchSearch search(rig, dependencies, cycles, live);
    search.lay_ground();
    search.set_out();
    return search.find(1);
}

}  // namespace ligament
