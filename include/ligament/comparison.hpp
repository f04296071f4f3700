// What changed between two revisions of a rig, and what does it do? Elements matched, fields compared, consequences told.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "ligament/facts.hpp"
#include "ligament/links.hpp"

namespace ligament {

/// Ids of one sort of element in both revisions, each way; none: not there.
struct Counterparts {
    std::vector<std::uint32_t> after;   ///< by id before
    std::vector<std::uint32_t> before;  ///< by id after
};

/// Who is who in two revisions.
///
/// Equal names are the same element: two bones that exchange names are two changed bones. What is left on both sides is matched
/// by what surrounds it. Each element has traits, with a weight each: its parent (2), each child (2), each source, handle and
/// input with what it is read for (2), each reader likewise (2), the kind of each constraint (1), roles (1), group (1), rest
/// translation (2), rest rotation and scale (1), tip (1), the shape of what hangs below it (2, where both have the same), the
/// expression of each driver (1), numbers of a property (1). A trait that names an element which has no counterpart counts a
/// quarter. Certainty is the weight of the traits that both have over the weight of those that either has and `rename_doubt`;
/// that the names differ as those of another renamed element do ("arm" for "wing") counts like a trait of weight 2. The surest
/// pair is taken first, then what is beside it is looked at again. Ties go to the pair whose names share more at their ends, then
/// to file order; certainty is halved of all that such a tie was about. No pair below `rename_threshold` is taken, and none that
/// shares no trait of at least `rename_evidence`.
///
/// Pairs are looked for among what shares a trait. Of a trait that many share only those are paired that are alike in all that
/// is said about themselves, and of these the first with the first, so that time grows with the rigs and not with pairs.
struct Matching {
    Counterparts bones, constraints, properties, objects;
    std::vector<std::pair<std::string, std::string>> groups;  ///< renamed ones, before and after
    std::vector<double> certainty;                            ///< by bone after: 1 for equal names and bones without counterpart
    std::vector<double> property_certainty, object_certainty;
};
inline constexpr double rename_threshold = 0.55;
inline constexpr double rename_doubt = 3;
inline constexpr double rename_evidence = 2;

/// Constraints are matched within bones that are one: by name, given names and kind and sources first, then by kind and sources.
/// A name that reading filled in ("transform1") is no name: such constraints are matched by kind and sources first.
Matching match_rigs(const Rig& before, const Dependencies& before_needs, const Rig& after, const Dependencies& after_needs);

enum class Element : std::uint8_t { rig, group, property, object, bone, constraint };

/// "rig" to "constraint".
std::string_view name_of(Element element);

/// One value of an element. `field` is the key of the rig description, "rest.translation", "channels.rotation.x",
/// "from.2.weight"; names inside values are those of each revision. Empty: not there. Of what an object follows and of roots
/// only those bones are told that one revision alone has; `constraints` is the order of a stack, told of those that both have.
struct FieldChange {
    std::string field, before, after;
};

/// An element that was added, removed, renamed or changed. Constraints of added and removed bones go with these.
struct Change {
    Element element = Element::bone;
    std::uint32_t before = none, after = none;  ///< ids; for a group places in Matching::groups, for the rig 0
    bool renamed = false;
    double certainty = 1;             ///< of a renamed element that it is the same one
    std::vector<FieldChange> fields;  ///< empty where it was only renamed, added or removed

    bool is_added() const { return before == none; }
    bool is_removed() const { return after == none; }
};

/// A deform bone that is attached better or worse. In a state: with a switch at a stop that both revisions have.
struct VerdictChange {
    BoneId before = none, after = none;  ///< one may be none: then the other one is not attached
    std::optional<Verdict> was, is;      ///< in the default state
    std::vector<Worse> lost_in,
        no_longer_in;  ///< states (of after, of before) in which this revision has it worse than the other
    bool is_worse = false;
    bool is_better = false;  ///< both: in one state better, in another worse
};

/// A cycle, known again by the bones (of a loop of properties: the properties) that both revisions of it have.
struct CycleChange {
    enum class How : std::uint8_t { added, gone, grown, shrunk, shifted, split, merged, regrained };
    How how = How::added;
    std::uint32_t before = none, after = none;  ///< places in Facts::cycles
    std::vector<BoneId> gained;                 ///< of after
    std::vector<BoneId> lost;                   ///< of before
    bool is_worse = false;                      ///< new, with bones that were in no cycle, or real at a finer grain
};

/// "new", "gone", "grown", "shrunk", "shifted", "split off", "merged", "at another grain".
std::string_view name_of(CycleChange::How how);

struct LevelChange {
    BoneId before = none, after = none;
    std::uint32_t was = 0, is = 0;
};

/// Two bones of which one needs the other in a revision, and that are evaluated the other way round in the other one.
struct Turned {
    BoneId first = none, then = none;  ///< as they stood before; ids of before
    BoneId now_first = none, now_then = none;
};

struct OrderChange {
    std::vector<LevelChange> levels;  ///< in the order of after
    std::size_t chain_before = 0, chain_after = 0;
    std::vector<Turned> turned;
};

/// Controls that newly move a bone, or no longer do, in the default state.
struct ReachChange {
    BoneId before = none, after = none;
    std::vector<BoneId> gained;  ///< of after
    std::vector<BoneId> lost;    ///< of before
};

struct SwitchChange {
    PropertyId before = none, after = none;  ///< none: no switch there
    std::vector<ConstraintId> gained;        ///< of after
    std::vector<ConstraintId> lost;          ///< of before
    std::vector<std::string> stops_gained, stops_lost;
};

/// Live dependences between bones, straight or through what is no bone, that only one revision has.
struct LinkChanges {
    std::vector<FoldedEdge> added;    ///< of after
    std::vector<FoldedEdge> removed;  ///< of before
};

struct Comparison {
    Matching matching;
    std::vector<Change> changes;    ///< rig, groups, properties, objects, then bones each with its constraints; what is gone last
    std::size_t moved_in_file = 0;  ///< bones that stand elsewhere in the file: the fewest that, moved, give the new order
    LinkChanges links;
    std::vector<VerdictChange> verdicts;
    std::vector<CycleChange> cycles;
    OrderChange order;
    std::vector<ReachChange> reach;
    bool deform_reach_listed = true;  ///< false where one rig has more than controls_limit bones
    bool other_reach_listed = true;   ///< whether bones that do not deform were looked at: up to reach_limit
    std::vector<SwitchChange> switches;

    bool is_same() const { return changes.empty() && moved_in_file == 0; }
};

/// Bones times controls of a rig up to which it is told of all bones who moves them, not only of deform bones.
inline constexpr std::size_t reach_limit = 20'000'000;

/// A rig with what is so about it, in the default state.
struct Revision {
    const Rig& rig;
    const Dependencies& dependencies;
    const Facts& facts;
};

/// All that changed, in near-linear time but for the facts themselves. Compared the other way round, what was added is removed.
Comparison compare_rigs(const Revision& before, const Revision& after);

}  // namespace ligament
