#include "state_looks.hpp"

#include <algorithm>
#include <utility>

namespace ligament {

namespace {

/// `part` and `whole` are settings in file order.
bool is_part(const Settings& part, const Settings& whole) {
    return std::includes(whole.begin(), whole.end(), part.begin(), part.end());
}

Rows find_solvers_on(const Rig& rig, const Dependencies& dependencies) {
    Rows chains;
    for (ConstraintId solver : dependencies.solvers) {
        for (BoneId bone : chain_of(rig, dependencies, solver)) chains.needs.push_back(bone);
        chains.first.push_back(static_cast<std::uint32_t>(chains.needs.size()));
    }
    Rows solvers_on = reversed(chains, static_cast<std::uint32_t>(rig.bones.size()));
    for (std::uint32_t& solver : solvers_on.needs) solver = dependencies.solvers[solver];
    return solvers_on;
}

/// The worst verdict among those of states that a combination contains.
Verdict worst_within(const std::vector<Worse>& states, const Settings& settings) {
    Verdict worst = Verdict::attached;
    for (const Worse& of_state : states)
        if (is_part(of_state.settings, settings)) worst = std::max(worst, of_state.verdict);
    return worst;
}

}  // namespace

SwitchGround::SwitchGround(const Rig& r, const Dependencies& d, const std::vector<Cycle>& cycles)
    : rig(r),
      dependencies(d),
      switches(find_switches(r, d)),
      cycle_states(r, d, cycles),
      runs(find_runs(r, d)),
      solvers_on(find_solvers_on(r, d)) {}

StateLooks::StateLooks(const SwitchGround& ground, const Rows& needed_by, StateWalk walk)
    : worse(walk.default_verdicts().size()),
      worse_yet(walk.default_verdicts().size()),
      live_in(ground.cycle_states.size()),
      works(ground.dependencies.constraints.size(), Work::off),
      ground_(ground),
      walk_(std::move(walk)),
      work_(ground.rig, ground.dependencies, needed_by) {
    for (std::uint32_t c = 0; c < ground_.cycle_states.size(); ++c)
        left_by_default_.push_back(ground_.cycle_states.is_left(c, walk_.liveness().gate_is_off) ? 1 : 0);
}

void StateLooks::look_at_default(ConstraintId first, ConstraintId end) {
    set({});
    for (ConstraintId id = first; id < end; ++id) note_work(id);
}

void StateLooks::look_at_single(Setting setting) {
    const Settings settings{setting};
    set(settings);
    find_working();
    note_cycles(settings);
    note_verdicts(settings, worse, [](const StateWalk::Judged&) { return true; });
}

void StateLooks::look_at_combination(const Settings& settings, const std::vector<std::vector<Worse>>& worse_alone) {
    set(settings);
    find_working();
    note_verdicts(settings, worse_yet, [&](const StateWalk::Judged& judged) {
        return judged.verdict > worst_within(worse_alone[judged.place], settings) &&
               judged.verdict > worst_within(worse_yet[judged.place], settings);
    });
}

/// Goes on from the state at hand with what it has in common with the one wanted: combinations come in an order in which only the
/// last settings change, while the first ones may switch hundreds of constraints.
void StateLooks::set(const Settings& settings) {
    const auto common =
        static_cast<std::size_t>(std::mismatch(at_.begin(), at_.end(), settings.begin(), settings.end()).first - at_.begin());
    for (; at_.size() > common; at_.pop_back()) walk_.unset();
    for (; at_.size() < settings.size(); at_.push_back(settings[at_.size()])) {
        const Setting next = settings[at_.size()];
        const Switch& of = ground_.switches[next.switch_index];
        walk_.set({{of.property, of.stops[next.stop].value}});
    }
}

void StateLooks::note_work(ConstraintId id) {
    if (works[id] != Work::done) works[id] = std::max(works[id], work_.find(id, walk_.liveness()));
}

void StateLooks::find_working_on(BoneId bone) {
    const std::vector<ConstraintId>& first = ground_.dependencies.first_constraint_of_bone;
    for (ConstraintId id = first[bone]; id < first[bone + 1]; ++id) note_work(id);
    for (ConstraintId solver : ground_.solvers_on.of(bone)) note_work(solver);
}

/// What nothing came of yet may work now where a constraint of the same bones is switched, or one that reads these bones' locals.
void StateLooks::find_working() {
    const Dependencies& dependencies = ground_.dependencies;
    for (ConstraintId id : walk_.switched()) {
        find_working_on(dependencies.constraints[id].bone);
        const Constraint& constraint = constraint_of(ground_.rig, dependencies, id);
        if (constraint.space == Space::local)  // it may read what is replaced later on the bones that it reads
            for (const Source& source : constraint.sources)
                if (source.bone != none) find_working_on(source.bone);
        if (!constraint.is_solver()) continue;
        for (BoneId bone : chain_of(ground_.rig, dependencies, id)) find_working_on(bone);
    }
}

void StateLooks::note_cycles(const Settings& settings) {
    const std::vector<std::uint32_t> gated = ground_.cycle_states.gated_by(walk_.switched());
    for (std::uint32_t c = 0; c < live_in.size(); ++c) {
        const bool looks_anew = std::binary_search(gated.begin(), gated.end(), c);
        if (looks_anew ? ground_.cycle_states.is_left(c, walk_.liveness().gate_is_off) : left_by_default_[c] != 0)
            live_in[c].push_back(settings);
    }
}

/// Of deform bones that are attached less well than in the default state, those that are news.
template <class IsNews>
void StateLooks::note_verdicts(const Settings& settings, std::vector<std::vector<Worse>>& list, IsNews is_news) {
    std::vector<StateWalk::Judged> bones;
    for (const StateWalk::Judged& judged : walk_.judge()) {
        if (judged.verdict > walk_.default_verdicts()[judged.place] && is_news(judged)) bones.push_back(judged);
    }
    if (bones.empty()) return;
    std::vector<ConstraintId> blamed = find_blamed(bones);
    for (std::size_t i = 0; i < bones.size(); ++i) {
        Worse found;
        found.settings = settings;
        found.verdict = bones[i].verdict;
        found.by_others = bones[i].verdict == Verdict::root_only && walk_.is_moved_alike(bones[i].place);
        if (!found.by_others && blamed[i] != none) {
            found.blamed = blamed[i];
            found.blamed_is_off = walk_.liveness().gate_is_off[blamed[i] + 1] != 0;
            found.right = find_right(blamed[i], settings, found.verdict);
        }
        list[bones[i].place].push_back(std::move(found));
    }
}

/// For each of these bones the switched constraint that makes the difference, the one last in the order of evaluation where
/// several do, each alone.
std::vector<ConstraintId> StateLooks::find_blamed(const std::vector<StateWalk::Judged>& bones) {
    std::vector<ConstraintId> candidates(walk_.switched().begin(), walk_.switched().end());
    std::stable_sort(candidates.begin(), candidates.end(),
                     [&](ConstraintId a, ConstraintId b) { return walk_.place_of(a) > walk_.place_of(b); });
    std::vector<ConstraintId> blamed(bones.size(), none);
    std::size_t open = bones.size();
    for (ConstraintId candidate : candidates) {
        if (open == 0 || trials == 0) break;
        --trials;
        walk_.restore(candidate);
        const std::vector<StateWalk::Judged>& judged = walk_.judge();
        for (std::size_t i = 0; i < bones.size(); ++i) {
            if (blamed[i] != none) continue;
            const auto at = std::lower_bound(judged.begin(), judged.end(), bones[i].place,
                                             [](const StateWalk::Judged& j, std::uint32_t place) { return j.place < place; });
            const Verdict before = walk_.default_verdicts()[bones[i].place];
            if (at != judged.end() && at->place == bones[i].place && at->verdict > before) continue;
            blamed[i] = candidate;
            --open;
        }
        walk_.forget();
    }
    return blamed;
}

/// See Worse::right.
std::vector<BoneId> StateLooks::find_right(ConstraintId blamed, const Settings& settings, Verdict verdict) {
    std::vector<BoneId> right;
    if (blamed == none || ground_.runs.place_of[blamed] == none) return right;
    const BoneId bone = ground_.dependencies.constraints[blamed].bone;
    for (BoneId other : ground_.runs.members.of(ground_.runs.run_of[bone])) {
        if (other == bone) continue;
        const ConstraintId same = ground_.runs.at(other, ground_.runs.place_of[blamed]);
        const bool gated = std::any_of(settings.begin(), settings.end(), [&](Setting setting) {
            const std::vector<ConstraintId>& reached = ground_.switches[setting.switch_index].constraints;
            return std::binary_search(reached.begin(), reached.end(), same);
        });
        if (gated && walk_.is_moved(other, verdict == Verdict::root_only)) right.push_back(other);
    }
    return right;
}

}  // namespace ligament
