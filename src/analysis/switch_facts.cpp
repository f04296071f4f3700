// What do the switches do to a rig? State after state looked at, each at the cost of what it changes.
#include <algorithm>
#include <set>
#include <utility>

#include "cycle_states.hpp"
#include "ligament/switches.hpp"
#include "runs.hpp"
#include "state_walk.hpp"
#include "switch_facts.hpp"
#include "touching.hpp"
#include "working.hpp"

namespace ligament {

namespace {

/// Trials of what would be if one constraint were as in the default state, for all states together: past it nobody is blamed.
constexpr std::size_t most_trials = 100'000;

/// `part` and `whole` are settings in file order.
bool is_part(const Settings& part, const Settings& whole) {
    return std::includes(whole.begin(), whole.end(), part.begin(), part.end());
}

struct Explorer {
    const Rig& rig;
    const Dependencies& dependencies;
    SwitchFacts facts;
    const LiveMotion& live;
    StateWalk walk;
    WorkSearch work;
    CycleStates cycle_states;
    Runs runs;
    std::vector<Work> works;                    ///< by constraint: the most that comes of it in a state looked at
    std::vector<std::uint8_t> left_by_default;  ///< by cycle
    Rows solvers_on;                            ///< by bone: the solvers whose chain it is in
    std::size_t trials = 0;

    Explorer(const Rig& r, const Dependencies& d, const std::vector<Cycle>& cycles, const LiveMotion& of,
             std::optional<std::vector<Verdict>> default_verdicts)
        : rig(r),
          dependencies(d),
          live(of),
          walk(r, d, of, std::move(default_verdicts)),
          work(r, d, of.needed_by),
          cycle_states(r, d, cycles),
          runs(find_runs(r, d)),
          works(d.constraints.size(), Work::off) {
        facts.switches = find_switches(rig, dependencies);
        facts.worse.resize(walk.default_verdicts().size());
        facts.worse_yet.resize(walk.default_verdicts().size());
        for (ConstraintId id = 0; id < works.size(); ++id) works[id] = work.find(id, walk.liveness());
        facts.live_in.resize(cycles.size());
        for (std::uint32_t c = 0; c < cycles.size(); ++c) {
            left_by_default.push_back(cycle_states.is_left(c, walk.liveness().gate_is_off) ? 1 : 0);
            if (left_by_default.back()) facts.live_in[c].emplace_back();
        }
        list_solvers();
        facts.looked_at = 1;
    }

    void list_solvers() {
        Rows chains;
        for (ConstraintId solver : dependencies.solvers) {
            for (BoneId bone : chain_of(rig, dependencies, solver)) chains.needs.push_back(bone);
            chains.first.push_back(static_cast<std::uint32_t>(chains.needs.size()));
        }
        solvers_on = reversed(chains, static_cast<std::uint32_t>(rig.bones.size()));
        for (std::uint32_t& solver : solvers_on.needs) solver = dependencies.solvers[solver];
    }

    void set(const Settings& settings) {
        std::vector<StateEvaluator::Change> changes;
        for (Setting setting : settings) {
            const Switch& of = facts.switches[setting.switch_index];
            changes.push_back({of.property, of.stops[setting.stop].value});
        }
        walk.set(changes);
        ++facts.looked_at;
    }

    /// What nothing came of yet may work now where a constraint of the same bones is switched, or one that reads these bones'
    /// locals.
    void find_working() {
        const auto look = [&](ConstraintId id) {
            if (works[id] != Work::done) works[id] = std::max(works[id], work.find(id, walk.liveness()));
        };
        const auto look_at_bone = [&](BoneId bone) {
            for (ConstraintId id = dependencies.first_constraint_of_bone[bone];
                 id < dependencies.first_constraint_of_bone[bone + 1]; ++id)
                look(id);
            for (ConstraintId solver : solvers_on.of(bone)) look(solver);
        };
        for (ConstraintId id : walk.switched()) {
            look_at_bone(dependencies.constraints[id].bone);
            const Constraint& constraint = constraint_of(rig, dependencies, id);
            if (constraint.space == Space::local)  // it may read what is replaced later on the bones that it reads
                for (const Source& source : constraint.sources)
                    if (source.bone != none) look_at_bone(source.bone);
            if (!constraint.is_solver()) continue;
            for (BoneId bone : chain_of(rig, dependencies, id)) look_at_bone(bone);
        }
    }

    void note_cycles(const Settings& settings) {
        const std::vector<std::uint32_t> gated = cycle_states.gated_by(walk.switched());
        for (std::uint32_t c = 0; c < facts.live_in.size(); ++c) {
            const bool looks_anew = std::binary_search(gated.begin(), gated.end(), c);
            if (looks_anew ? cycle_states.is_left(c, walk.liveness().gate_is_off) : left_by_default[c] != 0)
                facts.live_in[c].push_back(settings);
        }
    }

    /// The worst verdict of a deform bone in the default state and in the states looked at that a combination contains.
    Verdict worst_within(std::uint32_t place, const Settings& settings) const {
        Verdict worst = walk.default_verdicts()[place];
        for (const auto* list : {&facts.worse, &facts.worse_yet})
            for (const Worse& worse : (*list)[place])
                if (is_part(worse.settings, settings)) worst = std::max(worst, worse.verdict);
        return worst;
    }

    void note_verdicts(const Settings& settings) {
        std::vector<StateWalk::Judged> worse;
        for (const StateWalk::Judged& judged : walk.judge()) {
            if (judged.verdict <= walk.default_verdicts()[judged.place]) continue;
            if (settings.size() == 1 || judged.verdict > worst_within(judged.place, settings)) worse.push_back(judged);
        }
        if (worse.empty()) return;
        std::vector<ConstraintId> blamed = find_blamed(worse);
        for (std::size_t i = 0; i < worse.size(); ++i) {
            Worse found;
            found.settings = settings;
            found.verdict = worse[i].verdict;
            found.by_others = worse[i].verdict == Verdict::root_only && walk.is_moved_alike(worse[i].place);
            if (!found.by_others && blamed[i] != none) {
                found.blamed = blamed[i];
                found.blamed_is_off = walk.liveness().gate_is_off[blamed[i] + 1] != 0;
                found.right = find_right(blamed[i], settings, found.verdict);
            }
            auto& list = settings.size() == 1 ? facts.worse : facts.worse_yet;
            list[worse[i].place].push_back(std::move(found));
        }
    }

    /// For each of these bones the switched constraint that makes the difference, the one last in the order of evaluation where
    /// several do, each alone.
    std::vector<ConstraintId> find_blamed(const std::vector<StateWalk::Judged>& worse) {
        std::vector<ConstraintId> candidates(walk.switched().begin(), walk.switched().end());
        std::stable_sort(candidates.begin(), candidates.end(),
                         [&](ConstraintId a, ConstraintId b) { return walk.place_of(a) > walk.place_of(b); });
        std::vector<ConstraintId> blamed(worse.size(), none);
        std::size_t open = worse.size();
        for (ConstraintId candidate : candidates) {
            if (open == 0 || trials++ >= most_trials) break;
            walk.restore(candidate);
            const std::vector<StateWalk::Judged>& judged = walk.judge();
            for (std::size_t i = 0; i < worse.size(); ++i) {
                if (blamed[i] != none) continue;
                const auto at = std::lower_bound(judged.begin(), judged.end(), worse[i].place,
                                                 [](const StateWalk::Judged& j, std::uint32_t place) { return j.place < place; });
                const Verdict before = walk.default_verdicts()[worse[i].place];
                if (at != judged.end() && at->place == worse[i].place && at->verdict > before) continue;
                blamed[i] = candidate;
                --open;
            }
            walk.forget();
        }
        return blamed;
    }

    /// See Worse::right.
    std::vector<BoneId> find_right(ConstraintId blamed, const Settings& settings, Verdict verdict) {
        std::vector<BoneId> right;
        if (blamed == none || runs.place_of[blamed] == none) return right;
        const BoneId bone = dependencies.constraints[blamed].bone;
        for (BoneId other : runs.members.of(runs.run_of[bone])) {
            if (other == bone) continue;
            const ConstraintId same = runs.at(other, runs.place_of[blamed]);
            const bool gated = std::any_of(settings.begin(), settings.end(), [&](Setting setting) {
                const std::vector<ConstraintId>& reached = facts.switches[setting.switch_index].constraints;
                return std::binary_search(reached.begin(), reached.end(), same);
            });
            if (gated && walk.is_moved(other, verdict == Verdict::root_only)) right.push_back(other);
        }
        return right;
    }

    void look_at_single_states() {
        for (std::uint32_t index = 0; index < facts.switches.size(); ++index)
            for (std::uint32_t stop = 0; stop < facts.switches[index].stops.size(); ++stop) {
                const Settings settings{{index, stop}};
                set(settings);
                find_working();
                note_cycles(settings);
                note_verdicts(settings);
                walk.reset();
            }
    }

    void look_at_combinations() {
        facts.sets = find_interacting_sets(rig, facts.switches,
                                           find_touching(rig, dependencies, live.needed_by, live.order, facts.switches));
        if (facts.sets.empty()) return;
        const std::uint64_t limit = std::clamp<std::uint64_t>(combination_limit_of_rig / facts.sets.size(), 1, combination_limit);
        std::set<Settings> seen;  // a combination may be one of several sets
        for (InteractingSet& set_of : facts.sets) {
            Combinations combinations(rig, facts.switches, set_of);
            while (set_of.looked_at < limit) {
                const Settings& settings = combinations.next();
                if (settings.empty()) break;
                ++set_of.looked_at;
                if (!seen.insert(settings).second) continue;
                set(settings);
                find_working();
                note_verdicts(settings);
                walk.reset();
            }
        }
    }

    SwitchFacts find() {
        look_at_single_states();
        look_at_combinations();
        for (ConstraintId id = 0; id < works.size(); ++id)
            if (works[id] != Work::done) {
                facts.dead.push_back(id);
                facts.dead_is_replaced.push_back(works[id] == Work::replaced ? 1 : 0);
            }
        facts.gaps = find_switch_gaps(dependencies, runs, facts.switches);
        return std::move(facts);
    }
};

}  // namespace

SwitchFacts find_switch_facts(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles) {
    return Explorer(rig, dependencies, cycles, find_live_motion(dependencies), {}).find();
}

SwitchFacts find_switch_facts(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles,
                              const LiveMotion& live, const AttachmentFacts& in_default_state) {
    std::vector<Verdict> verdicts;
    for (const Attachment& attachment : in_default_state.deform) verdicts.push_back(attachment.verdict);
    return Explorer(rig, dependencies, cycles, live, std::move(verdicts)).find();
}

}  // namespace ligament
