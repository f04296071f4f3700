// What do the VRM extensions of a glTF file say of its nodes?
#pragma once

#include "gltf_taker.hpp"
#include "gltf_tree.hpp"

namespace ligament {

/// The limbs of a humanoid, as groups are named.
enum class HumanoidLimb : std::uint8_t { torso, head, arm_left, arm_right, hand_left, hand_right, leg_left, leg_right };
std::string_view name_of(HumanoidLimb limb);

/// A node that swings: what it reads, and what makes it swing.
struct VrmSpring {
    std::uint32_t node = none;
    std::vector<GltfIndex> reads;  ///< the joint before it, the center, the nodes of the colliders; each once
    std::string label;             ///< the name of the spring
    std::uint32_t item = none;
};

/// A VRMC_node_constraint.
struct VrmConstraint {
    std::uint32_t node = none;
    ConstraintKind kind = ConstraintKind::rotation;  ///< aim, roll or rotation
    Axis axis = Axis::unset;
    double weight = 1;
    GltfIndex source;
    std::uint32_t item = none;
};

struct Vrm {
    bool has_humanoid = false;
    std::vector<std::optional<HumanoidLimb>> limb;  ///< by node: set for humanoid bones
    std::vector<VrmConstraint> constraints;         ///< in the order of their nodes
    std::vector<VrmSpring> springs;                 ///< in file order, at most one a node
};

/// VRM 1.0 (VRMC_vrm humanoid, VRMC_node_constraint, VRMC_springBone) and VRM 0.x (humanoid, secondary animation), as their
/// published schemas say. A file may have both for the sake of older programs: VRM 1.0 alone is read then.
Vrm take_vrm(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker);

/// Extensions that take_vrm or the glTF reader look at.
bool is_known_extension(std::string_view name);

// The parts of take_vrm, one a file.
void take_humanoid(const Gltf& gltf, const GltfTaker& taker, Vrm& vrm);
void take_older_humanoid(const Gltf& gltf, const GltfTaker& taker, Vrm& vrm);
void take_node_constraints(const Gltf& gltf, const GltfTaker& taker, Vrm& vrm);
void take_spring_bones(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker, Vrm& vrm);
void take_secondary_animation(const Gltf& gltf, const GltfTree& tree, const GltfTaker& taker, Vrm& vrm);

}  // namespace ligament
