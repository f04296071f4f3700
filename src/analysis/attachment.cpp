// Is each deform bone really attached? Verdicts in a state, over the channel grain.
#include <algorithm>
#include <array>
#include <utility>

#include "ligament/facts.hpp"
#include "marks.hpp"
#include "motion.hpp"
#include "roots.hpp"

namespace ligament {

std::string_view name_of(Verdict verdict) {
    static constexpr std::array<std::string_view, 4> names{"attached", "carried", "root-only", "orphaned"};
    return names[static_cast<std::size_t>(verdict)];
}

namespace {

struct Judge {
    const Rig& rig;
    const Dependencies& dependencies;
    const Liveness& liveness;
    const Reached& reached;
    std::vector<VertexId> going;
    std::vector<std::uint8_t> seen;  ///< by vertex of the bone that is judged

    bool arrives(const std::vector<std::uint8_t>& marks, BoneId bone) const {
        const Arrivals arrivals = arrivals_of(rig, dependencies.channel, bone);
        return std::any_of(marks.begin() + arrivals.first, marks.begin() + arrivals.end,
                           [](std::uint8_t mark) { return mark != 0; });
    }

    /// A local-space step after a final-space one takes its owner's parent into account as the parent link itself does. Other
    /// local-space reads are of locals, so that a parent's final cannot be one of its sources.
    bool is_by_the_parent(BoneId bone, VertexId v, const Edge& edge) const {
        if (edge.kind() == EdgeKind::parent) return true;
        const Graph& channel = dependencies.channel;
        if (edge.kind() != EdgeKind::constraint || channel.vertices[edge.from].kind != VertexKind::final) return false;
        return constraint_of(rig, dependencies, channel.vertices[v].element).space == Space::local &&
               channel.vertices[edge.from].element == rig.bones[bone].parent;
    }

    /// By way of a parent that is a deform bone and no control, a bone is only carried.
    bool is_way_in(BoneId bone, VertexId v, const Edge& edge) const {
        if (!reached.by_any[edge.from]) return false;
        if (!is_by_the_parent(bone, v, edge)) return true;
        const Bone& parent = rig.bones[rig.bones[bone].parent];
        return !parent.deform || parent.control;
    }

    /// Walks back from where motion arrives, inside the bone, to where it enters.
    bool has_way_in(BoneId bone) {
        const Graph& channel = dependencies.channel;
        const VertexId first = channel.first_of_bone[bone];
        seen.assign(channel.first_of_bone[bone + 1] - first, 0);
        going.clear();
        const Arrivals arrivals = arrivals_of(rig, channel, bone);
        for (VertexId v = arrivals.first; v < arrivals.end; ++v) {
            seen[v - first] = 1;
            going.push_back(v);
        }
        while (!going.empty()) {
            const VertexId v = going.back();
            going.pop_back();
            for (const Edge& edge : channel.needs(v)) {
                if (!carries_motion(dependencies, liveness, v, edge)) continue;
                if (edge.kind() != EdgeKind::order) {
                    if (is_way_in(bone, v, edge)) return true;
                } else if (!seen[edge.from - first]) {
                    seen[edge.from - first] = 1;
                    going.push_back(edge.from);
                }
            }
        }
        return false;
    }
};

std::vector<Attachment> judge_deform_bones(Judge judge) {
    std::vector<Attachment> deform;
    bool others_move = false;
    for (BoneId b = 0; b < judge.rig.bones.size(); ++b) {
        if (!judge.rig.bones[b].deform) continue;
        deform.push_back({b, Verdict::orphaned, {}});
        others_move = others_move || judge.arrives(judge.reached.by_another, b);
    }
    for (Attachment& attachment : deform) {
        const BoneId bone = attachment.bone;
        if (!judge.arrives(judge.reached.by_any, bone)) continue;
        if (others_move && !judge.arrives(judge.reached.by_another, bone))
            attachment.verdict = Verdict::root_only;
        else
            attachment.verdict = judge.rig.bones[bone].control || judge.has_way_in(bone) ? Verdict::attached : Verdict::carried;
    }
    return deform;
}

void list_controls(const Rig& rig, const Graph& channel, const Motion& motion, std::vector<Attachment>& deform) {
    for (std::size_t first = 0; first < motion.controls.size(); first += MarkSet::capacity) {
        const std::size_t count = std::min(MarkSet::capacity, motion.controls.size() - first);
        std::vector<MarkSet> sets(channel.vertices.size());
        for (std::size_t i = 0; i < count; ++i)
            for (VertexId v : motion.starts_of(first + i)) sets[v].insert(i);
        spread_marks(motion.rows, motion.order, sets);
        for (Attachment& attachment : deform) {
            const Arrivals arrivals = arrivals_of(rig, channel, attachment.bone);
            MarkSet all;
            for (VertexId v = arrivals.first; v < arrivals.end; ++v) all |= sets[v];
            all.for_each([&](std::size_t i) { attachment.controls.push_back(motion.controls[first + i]); });
        }
    }
}

}  // namespace

AttachmentFacts find_attachment(const Rig& rig, const Dependencies& dependencies, const State& state) {
    const Liveness liveness = find_liveness(rig, dependencies, evaluate(rig, dependencies, state));
    const Motion motion = find_motion(rig, dependencies, liveness);
    Reached reached = find_reached(rig, dependencies, motion);
    AttachmentFacts facts;
    facts.deform = judge_deform_bones({rig, dependencies, liveness, reached, {}, {}});
    facts.root_controls = std::move(reached.root_controls);
    facts.controls_listed = rig.bones.size() <= controls_limit;
    if (facts.controls_listed) list_controls(rig, dependencies.channel, motion, facts.deform);
    return facts;
}

}  // namespace ligament
