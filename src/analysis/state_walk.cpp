#include "state_walk.hpp"

#include <algorithm>
#include <bit>
#include <functional>
#include <iterator>
#include <utility>

#include "attachment.hpp"

namespace ligament {

namespace {

struct ReachedByWalk {
    const ReachMarks& marks;
    Reachers others;

    bool by_any(VertexId v) const { return (marks.of(v) & any_control) != 0; }
    bool by_another(VertexId v) const { return (marks.of(v) & others) != 0; }
};

}  // namespace

StateWalk::StateWalk(const Rig& rig, const Dependencies& dependencies, const LiveMotion& live)
    : rig_(rig),
      dependencies_(dependencies),
      evaluator_(rig, dependencies),
      liveness_(find_liveness(rig, dependencies, evaluator_.evaluation())),
      default_liveness_(liveness_),
      needed_by_(live.needed_by),
      order_(live.order),
      ground_(std::make_shared<const StateGround>(find_state_ground(rig, dependencies, live, liveness_))),
      marks_(needed_by_.size(), ground_->candidates.size()),
      is_touched_(ground_->deform.size(), 0),
      is_queued_(order_.size(), 0) {
    for (std::uint32_t g = 0; g < order_.size(); ++g) gather_group(g);
    default_count_.missed.resize(ground_->candidates.size(), 0);
    default_arrived_.reserve(ground_->deform.size());
    for (BoneId b : ground_->deform) {
        default_arrived_.push_back(arrived(b));
        count(default_arrived_.back(), 1, default_count_);
    }
    judge_default_state();
    if (const std::optional<Roots> roots = roots_now()) default_roots_ = *roots;
}

void StateWalk::judge_default_state() {
    default_verdicts_.resize(ground_->deform.size(), Verdict::orphaned);
    default_roots_.others_move = true;  // so that this judgement is one of all bones
    judge();
    for (const Judged& judged : judged_) default_verdicts_[judged.place] = judged.verdict;
    default_roots_ = {};
}

void StateWalk::count(Reachers arrived, std::int64_t by, Count& count) const {
    if (arrived == 0) return;
    count.reached += by;
    if (!(arrived & other_control)) count.pure += by;
    for (Reachers missed = ground_->candidate_bits() & ~arrived; missed != 0; missed &= missed - 1)
        count.missed[static_cast<std::size_t>(std::countr_zero(missed)) - first_candidate_bit] += by;
}

std::optional<StateWalk::Roots> StateWalk::roots_now() const {
    Count now = default_count_;
    for (std::uint32_t place : touched_) {
        count(default_arrived_[place], -1, now);
        count(arrived(ground_->deform[place]), 1, now);
    }
    Roots roots{other_control, false};
    if (!rig_.roots) {
        // A deform bone that candidates alone reach shows that no other control is a root control.
        if (ground_->has_others && now.reached > 0 && now.pure == 0) return std::nullopt;
        for (std::size_t i = 0; i < ground_->candidates.size(); ++i)
            if (now.reached == 0 || now.missed[i] != 0) roots.others |= candidate_bit(i);
    }
    for (std::uint32_t place = 0; place < ground_->deform.size() && !roots.others_move; ++place)
        roots.others_move =
            ((is_touched_[place] ? arrived(ground_->deform[place]) : default_arrived_[place]) & roots.others) != 0;
    return roots;
}

const std::vector<StateWalk::Judged>& StateWalk::judge() {
    judged_.clear();
    const std::optional<Roots> roots = roots_now();
    if (!roots) {
        judge_from_scratch();
        return judged_;
    }
    Judge<ReachedByWalk> judge{rig_, dependencies_, liveness_, {marks_, roots->others}};
    const auto add = [&](std::uint32_t place) {
        judged_.push_back({place, judge.judge(ground_->deform[place], roots->others_move)});
    };
    if (roots->others == default_roots_.others && roots->others_move == default_roots_.others_move) {
        for (std::uint32_t place : touched_) add(place);
        std::sort(judged_.begin(), judged_.end(), [](const Judged& a, const Judged& b) { return a.place < b.place; });
    } else {
        for (std::uint32_t place = 0; place < ground_->deform.size(); ++place) add(place);
    }
    return judged_;
}

void StateWalk::judge_from_scratch() {
    const AttachmentFacts facts = find_attachment(rig_, dependencies_, liveness_, /*list_them=*/false);
    for (std::uint32_t place = 0; place < facts.deform.size(); ++place) judged_.push_back({place, facts.deform[place].verdict});
}

/// Marks of candidates tell them one by one, and a bone that is root-only has no others.
bool StateWalk::is_moved_alike(std::uint32_t place) const { return arrived(ground_->deform[place]) == default_arrived_[place]; }

std::uint32_t StateWalk::place_of(ConstraintId constraint) const {
    std::uint32_t last = 0;
    for (VertexId v : ground_->gates.targets_of.of(constraint)) last = std::max(last, ground_->group_of[v]);
    return last;
}

bool StateWalk::is_moved(BoneId bone, bool another) const {
    Reachers wanted = any_control;
    if (another) {
        const std::optional<Roots> roots = roots_now();
        wanted = roots ? roots->others : other_control;
    }
    return (arrived(bone) & wanted) != 0;
}

void StateWalk::set(const std::vector<StateEvaluator::Change>& changes) {
    std::vector<ConstraintId> constraints;
    for (DriverId driver : evaluator_.set(changes)) {
        const DriverUse& use = dependencies_.driver_uses[driver];
        if (use.target == DriverUse::Target::weight || use.target == DriverUse::Target::source_weight)
            constraints.push_back(use.element);
    }
    std::sort(constraints.begin(), constraints.end());
    constraints.erase(std::unique(constraints.begin(), constraints.end()), constraints.end());
    sets_.push_back({log_.size(), touched_.size(), switched_});
    for (ConstraintId id : constraints) {
        bool changed = false;
        for (std::uint32_t g : ground_->gates.gates_of.of(id))
            changed |= assign_gate(g, is_off(rig_, dependencies_, dependencies_.gates[g], evaluator_.evaluation()));
        changed |= assign_replaced(id, replaced_by(rig_, dependencies_, id, evaluator_.evaluation()));
        if (!changed) continue;
        for (VertexId v : ground_->gates.targets_of.of(id)) enqueue(ground_->group_of[v]);
    }
    note_switched(constraints);
    spread();
}

void StateWalk::unset() {
    undo(sets_.back().log_size, sets_.back().touched_size);
    switched_ = std::move(sets_.back().switched);
    sets_.pop_back();
    evaluator_.unset();
}

bool StateWalk::is_as_by_default(ConstraintId constraint) const {
    const std::span<const std::uint32_t> gates = ground_->gates.gates_of.of(constraint);
    return liveness_.replaced[constraint] == default_liveness_.replaced[constraint] &&
           std::all_of(gates.begin(), gates.end(),
                       [&](std::uint32_t g) { return liveness_.gate_is_off[g] == default_liveness_.gate_is_off[g]; });
}

/// `looked_at`: ascending, all that may be as they were not before.
void StateWalk::note_switched(const std::vector<ConstraintId>& looked_at) {
    std::vector<ConstraintId> left, now;
    std::set_difference(switched_.begin(), switched_.end(), looked_at.begin(), looked_at.end(), std::back_inserter(left));
    std::copy_if(looked_at.begin(), looked_at.end(), std::back_inserter(now),
                 [&](ConstraintId id) { return !is_as_by_default(id); });
    switched_.clear();
    std::merge(left.begin(), left.end(), now.begin(), now.end(), std::back_inserter(switched_));
}

void StateWalk::restore(ConstraintId constraint) {
    kept_.emplace_back(log_.size(), touched_.size());
    for (std::uint32_t g : ground_->gates.gates_of.of(constraint)) assign_gate(g, default_liveness_.gate_is_off[g] != 0);
    assign_replaced(constraint, default_liveness_.replaced[constraint]);
    for (VertexId v : ground_->gates.targets_of.of(constraint)) enqueue(ground_->group_of[v]);
    spread();
}

void StateWalk::forget() {
    undo(kept_.back().first, kept_.back().second);
    kept_.pop_back();
}

void StateWalk::undo(std::size_t log_size, std::size_t touched_size) {
    for (; log_.size() > log_size; log_.pop_back()) {
        const Old& old = log_.back();
        switch (old.what) {
            case Old::What::marks:
                marks_.set(old.index, old.value);
                break;
            case Old::What::gate:
                liveness_.gate_is_off[old.index] = static_cast<std::uint8_t>(old.value);
                break;
            case Old::What::replaced:
                liveness_.replaced[old.index] = static_cast<Parts>(old.value);
                break;
        }
    }
    for (; touched_.size() > touched_size; touched_.pop_back()) is_touched_[touched_.back()] = 0;
}

bool StateWalk::assign_gate(std::uint32_t gate, bool off) {
    std::uint8_t& now = liveness_.gate_is_off[gate];
    if ((now != 0) == off) return false;
    log_.push_back({Old::What::gate, gate, now});
    now = off ? 1 : 0;
    return true;
}

bool StateWalk::assign_replaced(ConstraintId constraint, Parts parts) {
    Parts& now = liveness_.replaced[constraint];
    if (now == parts) return false;
    log_.push_back({Old::What::replaced, constraint, now});
    now = parts;
    return true;
}

void StateWalk::enqueue(std::uint32_t group) {
    if (is_queued_[group]) return;
    is_queued_[group] = 1;
    queue_.push_back(group);
    std::push_heap(queue_.begin(), queue_.end(), std::greater<>());
}

void StateWalk::spread() {
    while (!queue_.empty()) {
        std::pop_heap(queue_.begin(), queue_.end(), std::greater<>());
        const std::uint32_t group = queue_.back();
        queue_.pop_back();
        is_queued_[group] = 0;
        settle(group);
    }
}

/// What a vertex gets from its own start and over its live edges, those from the group `besides` left out.
Reachers StateWalk::gathered(VertexId v, std::uint32_t besides) const {
    Reachers marks = ground_->starts[ground_->start_of[v]];
    for (const Edge& edge : dependencies_.motion.needs(v))
        if (marks_.of(edge.from) != 0 && ground_->group_of[edge.from] != besides &&
            carries_motion(dependencies_, liveness_, v, edge))
            marks |= marks_.of(edge.from);
    return marks;
}

/// Likewise, for the only vertex of a group. Most groups are such, and looking up the group of each `from` would miss the cache.
Reachers StateWalk::gathered_alone(VertexId v) const {
    Reachers marks = ground_->starts[ground_->start_of[v]];
    for (const Edge& edge : dependencies_.motion.needs(v))
        if ((marks_.of(edge.from) & ~marks) != 0 && edge.from != v && carries_motion(dependencies_, liveness_, v, edge))
            marks |= marks_.of(edge.from);
    return marks;
}

/// Where the marks of a group come out different, whoever needs it is next.
void StateWalk::settle(std::uint32_t group) {
    const std::span<const VertexId> members = order_.of(group);
    old_.clear();
    for (VertexId v : members) {
        touch(v);
        old_.push_back(marks_.of(v));
    }
    gather_group(group);
    for (std::size_t i = 0; i < members.size(); ++i) {
        const VertexId v = members[i];
        if (marks_.of(v) == old_[i]) continue;
        log_.push_back({Old::What::marks, v, old_[i]});
        for (VertexId next : needed_by_.of(v))
            if (ground_->group_of[next] != group) enqueue(ground_->group_of[next]);
    }
}

/// Finds the marks of one group anew. Inside it they only grow from what came from outside, until none grows any more.
void StateWalk::gather_group(std::uint32_t group) {
    const std::span<const VertexId> members = order_.of(group);
    if (members.size() == 1) {
        marks_.set(members.front(), gathered_alone(members.front()));
        return;
    }
    for (VertexId v : members) marks_.set(v, gathered(v, group));
    inside_.assign(members.begin(), members.end());
    while (!inside_.empty()) {
        const VertexId v = inside_.back();
        inside_.pop_back();
        const Reachers marks = gathered(v, none);
        if ((marks | marks_.of(v)) == marks_.of(v)) continue;
        marks_.set(v, marks_.of(v) | marks);
        for (VertexId next : needed_by_.of(v))
            if (ground_->group_of[next] == group) inside_.push_back(next);
    }
}

void StateWalk::touch(VertexId v) {
    const BoneId bone = dependencies_.bone_of(dependencies_.motion, v);
    if (bone == none || ground_->place_of[bone] == none || is_touched_[ground_->place_of[bone]]) return;
    is_touched_[ground_->place_of[bone]] = 1;
    touched_.push_back(ground_->place_of[bone]);
}

Reachers StateWalk::arrived(BoneId bone) const {
    const Arrivals arrivals = arrivals_of(rig_, dependencies_.motion, bone);
    Reachers all = 0;
    for (VertexId v = arrivals.first; v < arrivals.end; ++v) all |= marks_.of(v);
    return all;
}

}  // namespace ligament
