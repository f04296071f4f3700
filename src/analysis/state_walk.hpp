// How do verdicts change from the default state to another one? Motion kept up to date at the cost of what changes.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "judge.hpp"
#include "ligament/attachment.hpp"
#include "motion.hpp"
#include "rows.hpp"
#include "state_evaluator.hpp"
#include "state_ground.hpp"
#include "sweep.hpp"

namespace ligament {

/// The default state at first, then one state after the other: set(), look, unset(). Every vertex of the motion graph holds
/// marks of who reaches it: any control, a control that is no candidate for root, and each candidate. From the gates and steps
/// that a state switches, new marks are spread in an order that holds in every state, and no further than where they come out as
/// they were. A copy is a walk of its own, over the same ground.
class StateWalk {
  public:
    /// All of these must outlive the walk.
    StateWalk(const Rig& rig, const Dependencies& dependencies, const LiveMotion& live);

    /// To the state in which these properties are changed as well.
    void set(const std::vector<StateEvaluator::Change>& changes);
    /// Undoes the last set().
    void unset();

    const Liveness& liveness() const { return liveness_; }

    /// The constraints that this state switches: a gate of theirs, or what their step replaces, is not as in the default state.
    std::span<const ConstraintId> switched() const { return switched_; }

    /// Where the last vertex that the constraint decides stands in the order.
    std::uint32_t place_of(ConstraintId constraint) const;

    /// A deform bone, by place among the deform bones in file order, and its verdict in this state.
    struct Judged {
        std::uint32_t place = 0;
        Verdict verdict = Verdict::orphaned;
    };
    /// The deform bones whose verdict may not be as in the default state, in file order.
    const std::vector<Judged>& judge();
    const std::vector<Verdict>& default_verdicts() const { return default_verdicts_; }

    /// Whether the deform bone at a place is reached by the same controls as in the default state, while other bones are not: of
    /// such a bone that is judged root-only now nothing has changed. Call after judge().
    bool is_moved_alike(std::uint32_t place) const;

    /// Makes one of the switched constraints as it is in the default state, all others stay as they are; forget() undoes that.
    void restore(ConstraintId constraint);
    void forget();

    /// Whether a control reaches the bone in this state, or with `another` one that is no root control.
    bool is_moved(BoneId bone, bool another) const;

  private:
    struct Old {
        enum class What : std::uint8_t { marks, gate, replaced } what;
        std::uint32_t index;
        Reachers value;
    };
    struct Roots {
        Reachers others = 0;  ///< marks of controls that are no root controls
        bool others_move = false;
    };
    struct Count {
        std::int64_t reached = 0, pure = 0;  ///< deform bones that a control reaches, that only candidates reach
        std::vector<std::int64_t> missed;    ///< by candidate: reached deform bones that it does not reach
    };

    void judge_default_state();
    void count(Reachers arrived, std::int64_t by, Count& count) const;
    std::optional<Roots> roots_now() const;
    void judge_from_scratch();

    bool is_as_by_default(ConstraintId constraint) const;
    void note_switched(const std::vector<ConstraintId>& looked_at);
    bool assign_gate(std::uint32_t gate, bool off);
    bool assign_replaced(ConstraintId constraint, Parts parts);
    void enqueue(std::uint32_t group);
    void spread();
    void settle(std::uint32_t group);
    void gather_group(std::uint32_t group);
    Reachers gathered(VertexId v, std::uint32_t besides) const;
    Reachers gathered_alone(VertexId v) const;
    void touch(VertexId v);
    void undo(std::size_t log_size, std::size_t touched_size);
    Reachers arrived(BoneId bone) const;

    const Rig& rig_;
    const Dependencies& dependencies_;
    StateEvaluator evaluator_;
    Liveness liveness_, default_liveness_;
    const Rows& needed_by_;
    const Sweep& order_;
    std::shared_ptr<const StateGround> ground_;
    ReachMarks marks_;
    std::vector<Reachers> default_arrived_;  ///< by deform bone
    std::vector<Verdict> default_verdicts_;  ///< by deform bone
    Count default_count_;
    Roots default_roots_;

    std::vector<Old> log_;
    std::vector<ConstraintId> switched_;
    std::vector<std::uint32_t> touched_;  ///< deform bones to judge again, by place
    std::vector<std::uint8_t> is_touched_, is_queued_;
    std::vector<std::uint32_t> queue_;  ///< a heap of groups
    std::vector<VertexId> inside_;
    std::vector<Reachers> old_;
    std::vector<Judged> judged_;
    struct Before {
        std::size_t log_size, touched_size;
        std::vector<ConstraintId> switched;
    };
    std::vector<Before> sets_;                               ///< what was before each set()
    std::vector<std::pair<std::size_t, std::size_t>> kept_;  ///< sizes of log and touched before each restore()
};

}  // namespace ligament
