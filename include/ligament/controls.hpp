// Whom does each control move, and who moves through it alone? The single points of control of deform bones.
#pragma once

#include <cstdint>
#include <vector>

#include "ligament/states.hpp"

namespace ligament {

/// A deform bone and what its motion hangs on.
struct ControlPoints {
    BoneId bone = none;
    bool is_moved = false;              ///< some control reaches it
    BoneId only_mover = none;           ///< the control that reaches it where no other does
    std::vector<BoneId> single_points;  ///< in file order; empty where ControlFacts::are_listed is false
};

/// A control and the deform bones that it moves.
struct ControlReach {
    BoneId control = none;
    std::uint32_t moves = 0;         ///< deform bones that it reaches
    std::uint32_t only_through = 0;  ///< of which it is a single point of control
    std::uint32_t alone = 0;         ///< that no other control reaches
};

struct ControlFacts {
    std::vector<ControlPoints> deform;   ///< every deform bone, in file order
    std::vector<ControlReach> controls;  ///< every control, in file order
    bool are_listed = true;              ///< false where all bones together have more than control_points_limit single points
};

/// Bones mostly have one single point of control or none; rigs in which each control wholly follows another one have many more.
inline constexpr std::size_t control_points_limit = 10'000'000;

/// A control is a single point of control of a deform bone if motion reaches the bone from controls, but no longer when all steps
/// of that control and the undriven properties on it are taken out: every path from a control to the bone passes through it. A
/// deform bone that is a control is one of its own.
///
/// In one state, over the edges of attachment (channel grain), for 256 controls at a time. Such a pass looks only at what its
/// controls move, once at each vertex; in cycles sets of controls grow until they stay the same.
ControlFacts find_control_facts(const Rig& rig, const Dependencies& dependencies, const State& state);

/// The deform bones that one control moves, in file order.
struct MovedBones {
    std::vector<BoneId> moves;
    std::vector<BoneId> only_through;  ///< of which it is a single point of control
    std::vector<BoneId> alone;         ///< that no other control reaches
};

/// As find_control_facts, for one control. Linear where the control is in no cycle.
MovedBones find_moved_bones(const Rig& rig, const Dependencies& dependencies, const State& state, BoneId control);

}  // namespace ligament
