// Which number has a vertex? Step-grain numbers of everything in a rig, and how each bone's stack is laid out.
#pragma once

#include <span>
#include <vector>

#include "ligament/graph.hpp"

namespace ligament {

/// The steps of one bone are contiguous: pose, solved, leading constraints, local, base, later constraints, final, curve.
/// Leading constraints are the local-space ones before the first final-space one; solvers are no steps of the stack.
struct Numbering {
    std::vector<VertexId> first_of_bone;     ///< size bones + 1; also the bone's pose
    std::vector<VertexId> local_of;          ///< by bone
    std::vector<VertexId> step_of;           ///< by constraint id; a solver's vertex for solvers
    std::vector<VertexId> late_of;           ///< by bone: its last live local-space step after a live final-space one, or none
    std::vector<bool> shapes_local;          ///< by bone: a live local-space step or solver shapes its local channels
    std::vector<std::uint32_t> solver_rows;  ///< size bones + 1
    std::vector<ConstraintId> solvers;       ///< per bone, the solvers whose chain it is in, in file order
    VertexId first_property = 0, first_driver = 0, first_object = 0, first_solver = 0, end = 0;

    VertexId pose(BoneId b) const { return first_of_bone[b]; }
    VertexId solved(BoneId b) const { return first_of_bone[b] + 1; }
    VertexId local(BoneId b) const { return local_of[b]; }
    VertexId base(BoneId b) const { return local_of[b] + 1; }
    VertexId final(const Rig& rig, BoneId b) const { return first_of_bone[b + 1] - (rig.bones[b].curve ? 2 : 1); }
    VertexId curve(BoneId b) const { return first_of_bone[b + 1] - 1; }
    std::span<const ConstraintId> solvers_on(BoneId b) const {
        return {solvers.data() + solver_rows[b], solvers.data() + solver_rows[b + 1]};
    }
};

/// Numbers a rig whose constraints are already listed in `dependencies`. Linear.
Numbering build_numbering(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
