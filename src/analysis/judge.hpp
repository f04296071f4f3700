// Is this deform bone attached? Its verdict from where motion arrives and by which way it comes in.
#pragma once

#include <cstdint>
#include <vector>

#include "ligament/attachment.hpp"
#include "motion.hpp"

namespace ligament {

/// Judges one deform bone after the other. `Reached` says of a channel-grain vertex whether a control reaches it: `by_any(v)`,
/// and whether one that is no root control does: `by_another(v)`.
template <class Reached>
struct Judge {
    const Rig& rig;
    const Dependencies& dependencies;
    const Liveness& liveness;
    Reached reached;
    std::vector<VertexId> going{};
    std::vector<std::uint8_t> seen{};  ///< by vertex of the bone that is judged

    bool arrives_from_any(BoneId bone) const {
        return arrives(bone, [&](VertexId v) { return reached.by_any(v); });
    }
    bool arrives_from_another(BoneId bone) const {
        return arrives(bone, [&](VertexId v) { return reached.by_another(v); });
    }

    /// `others_move`: some deform bone is reached by a control that is no root control.
    Verdict judge(BoneId bone, bool others_move) {
        if (!arrives_from_any(bone)) return Verdict::orphaned;
        if (others_move && !arrives_from_another(bone)) return Verdict::root_only;
        return rig.bones[bone].control || has_way_in(bone) ? Verdict::attached : Verdict::carried;
    }

  private:
    template <class Has>
    bool arrives(BoneId bone, Has has) const {
        const Arrivals arrivals = arrivals_of(rig, dependencies.motion, bone);
        for (VertexId v = arrivals.first; v < arrivals.end; ++v)
            if (has(v)) return true;
        return false;
    }

    /// A local-space step after a final-space one takes its owner's parent into account as the parent link itself does. Other
    /// local-space reads are of locals, so that a parent's final cannot be one of its sources.
    bool is_by_the_parent(BoneId bone, VertexId v, const Edge& edge) const {
        if (edge.kind() == EdgeKind::parent) return true;
        const Graph& graph = dependencies.motion;
        if (edge.kind() != EdgeKind::constraint || !is_arrival(rig, dependencies, edge.from)) return false;
        return constraint_of(rig, dependencies, graph.vertices[v].element).space == Space::local &&
               graph.vertices[edge.from].kind != VertexKind::curve &&
               dependencies.bone_of(graph, edge.from) == rig.bones[bone].parent;
    }

    /// By way of a parent that is a deform bone and no control, a bone is only carried.
    bool is_way_in(BoneId bone, VertexId v, const Edge& edge) const {
        if (!reached.by_any(edge.from)) return false;
        if (!is_by_the_parent(bone, v, edge)) return true;
        const Bone& parent = rig.bones[rig.bones[bone].parent];
        return !parent.deform || parent.control;
    }

    /// Walks back from where motion arrives, inside the bone, to where it enters.
    bool has_way_in(BoneId bone) {
        const Graph& graph = dependencies.motion;
        const VertexId first = graph.first_of_bone[bone];
        seen.assign(graph.first_of_bone[bone + 1] - first, 0);
        going.clear();
        const Arrivals arrivals = arrivals_of(rig, graph, bone);
        for (VertexId v = arrivals.first; v < arrivals.end; ++v) {
            seen[v - first] = 1;
            going.push_back(v);
        }
        while (!going.empty()) {
            const VertexId v = going.back();
            going.pop_back();
            for (const Edge& edge : graph.needs(v)) {
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

}  // namespace ligament
