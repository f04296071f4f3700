#include "attachment.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "judge.hpp"
#include "marks.hpp"
#include "motion.hpp"
#include "roots.hpp"

namespace ligament {

std::string_view name_of(Verdict verdict) {
    static constexpr std::array<std::string_view, 4> names{"attached", "carried", "root-only", "orphaned"};
    return names[static_cast<std::size_t>(verdict)];
}

namespace {

/// The marks of find_reached, as Judge reads them.
struct ReachedByMarks {
    const Reached& reached;

    bool by_any(VertexId v) const { return (reached.marks[v] & Reached::any) != 0; }
    bool by_another(VertexId v) const { return (reached.marks[v] & Reached::another) != 0; }
};

std::vector<Attachment> judge_deform_bones(Judge<ReachedByMarks> judge) {
    std::vector<Attachment> deform;
    bool others_move = false;
    for (BoneId b = 0; b < judge.rig.bones.size(); ++b) {
        if (!judge.rig.bones[b].deform) continue;
        deform.push_back({b, Verdict::orphaned, {}});
        others_move = others_move || judge.arrives_from_another(b);
    }
    for (Attachment& attachment : deform) attachment.verdict = judge.judge(attachment.bone, others_move);
    return deform;
}

void list_controls(const Rig& rig, const Graph& graph, const Motion& motion, std::vector<Attachment>& deform) {
    for (std::size_t first = 0; first < motion.controls.size(); first += MarkSet::capacity) {
        const std::size_t count = std::min(MarkSet::capacity, motion.controls.size() - first);
        std::vector<MarkSet> sets(graph.vertices.size());
        for (std::size_t i = 0; i < count; ++i)
            for (VertexId v : motion.starts_of(first + i)) sets[v].insert(i);
        spread_marks(motion.rows, motion.order, sets);
        for (Attachment& attachment : deform) {
            const Arrivals arrivals = arrivals_of(rig, graph, attachment.bone);
            MarkSet all;
            for (VertexId v = arrivals.first; v < arrivals.end; ++v) all |= sets[v];
            all.for_each([&](std::size_t i) { attachment.controls.push_back(motion.controls[first + i]); });
        }
    }
}

}  // namespace

AttachmentFacts find_attachment(const Rig& rig, const Dependencies& dependencies, const State& state) {
    return find_attachment(rig, dependencies, find_liveness(rig, dependencies, evaluate(rig, dependencies, state)),
                           rig.bones.size() <= controls_limit);
}

AttachmentFacts find_attachment(const Rig& rig, const Dependencies& dependencies, const Liveness& liveness, bool list_them) {
    const Motion motion = find_motion(rig, dependencies, liveness);
    Reached reached = find_reached(rig, dependencies, motion);
    AttachmentFacts facts;
    facts.deform = judge_deform_bones({rig, dependencies, liveness, {reached}});
    facts.root_controls = std::move(reached.root_controls);
    facts.controls_listed = list_them;
    if (facts.controls_listed) list_controls(rig, dependencies.motion, motion, facts.deform);
    return facts;
}

}  // namespace ligament
