#include "numbering.hpp"

#include <algorithm>

namespace ligament {

namespace {

/// Lays out one bone's steps from `next` on and gives the first number after them.
VertexId number_bone(const Rig& rig, const Dependencies& dependencies, BoneId b, VertexId next, Numbering& numbering) {
    const Bone& bone = rig.bones[b];
    const ConstraintId first = dependencies.first_constraint_of_bone[b];
    numbering.first_of_bone[b] = next;
    next += 2;  // pose, solved

    const auto live_final = [](const Constraint& c) { return !c.is_solver() && c.space == Space::final && !c.is_inert(); };
    const auto turn = std::find_if(bone.constraints.begin(), bone.constraints.end(), live_final);
    const auto leads = [&](std::size_t i) {
        return bone.constraints[i].space == Space::local && bone.constraints.begin() + static_cast<std::ptrdiff_t>(i) < turn;
    };
    for (std::size_t i = 0; i < bone.constraints.size(); ++i) {
        if (bone.constraints[i].is_solver() || !leads(i)) continue;
        numbering.step_of[first + i] = next++;
        if (!bone.constraints[i].is_inert()) numbering.shapes_local[b] = true;
    }
    numbering.local_of[b] = next;
    next += 2;  // local, base
    for (std::size_t i = 0; i < bone.constraints.size(); ++i) {
        const Constraint& constraint = bone.constraints[i];
        if (constraint.is_solver() || leads(i)) continue;
        numbering.step_of[first + i] = next;
        if (constraint.space == Space::local && !constraint.is_inert()) {
            numbering.late_of[b] = next;
            numbering.shapes_local[b] = true;
        }
        ++next;
    }
    return next + (bone.curve ? 2 : 1);  // final, curve
}

void number_solvers(const Rig& rig, const Dependencies& dependencies, Numbering& numbering) {
    std::vector<std::uint32_t>& rows = numbering.solver_rows;
    rows.assign(rig.bones.size() + 1, 0);
    for (ConstraintId solver : dependencies.solvers)
        for (BoneId b : chain_of(rig, dependencies, solver)) ++rows[b + 1];
    for (std::size_t b = 1; b < rows.size(); ++b) rows[b] += rows[b - 1];
    numbering.solvers.resize(rows.back());
    std::vector<std::uint32_t> fill(rows.begin(), rows.end() - 1);
    for (std::size_t i = 0; i < dependencies.solvers.size(); ++i) {
        const ConstraintId solver = dependencies.solvers[i];
        numbering.step_of[solver] = numbering.first_solver + static_cast<VertexId>(i);
        for (BoneId b : chain_of(rig, dependencies, solver)) {
            numbering.solvers[fill[b]++] = solver;
            if (!constraint_of(rig, dependencies, solver).is_inert()) numbering.shapes_local[b] = true;
        }
    }
}

}  // namespace

Numbering build_numbering(const Rig& rig, const Dependencies& dependencies) {
    Numbering numbering;
    const std::size_t bones = rig.bones.size();
    numbering.first_of_bone.resize(bones + 1);
    numbering.local_of.resize(bones);
    numbering.step_of.assign(dependencies.constraints.size(), none);
    numbering.late_of.assign(bones, none);
    numbering.shapes_local.assign(bones, false);

    VertexId next = 0;
    for (BoneId b = 0; b < bones; ++b) next = number_bone(rig, dependencies, b, next, numbering);
    numbering.first_of_bone[bones] = next;
    numbering.first_property = next;
    numbering.first_driver = numbering.first_property + static_cast<VertexId>(rig.properties.size());
    numbering.first_object = numbering.first_driver + static_cast<VertexId>(rig.drivers.size());
    numbering.first_solver = numbering.first_object + static_cast<VertexId>(rig.objects.size());
    numbering.end = numbering.first_solver + static_cast<VertexId>(dependencies.solvers.size());
    number_solvers(rig, dependencies, numbering);
    return numbering;
}

}  // namespace ligament
