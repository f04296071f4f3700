// Which step needs which? The needs of every step, once, precise enough to be told at each of the three grains.
#pragma once

#include <cstdint>
#include <functional>
#include <span>

#include "ligament/graph.hpp"
#include "numbering.hpp"

namespace ligament {

/// How the parts of what is read go into the parts of what is written.
enum class Joining : std::uint8_t {
    pass,     ///< part by part; the three scalars of a pose part go into that part
    join,     ///< everything read into everything written
    inherit,  ///< as a child takes its parent's final: position needs all three parts, rotation and scale their own
};

/// Step `to` needs step `from`. Parts are bits: of a Part where a step is split into three, of a scalar channel for a pose,
/// bit 0 for a vertex that is not split.
struct Need {
    VertexId from = none;
    VertexId to = none;
    std::uint32_t gate = 0;
    MakerId maker = 0;
    Channels reads = 1;   ///< of `from`; not used by `inherit`
    Channels writes = 1;  ///< of `to`
    EdgeKind kind = EdgeKind::order;
    Joining joining = Joining::join;
    bool at_step = true;  ///< false where the step grain has this edge already
    bool at_bone = true;  ///< false for the poses that a solver reads
};

/// Gives the needs of all steps in the order of `to`, some steps at a time and never one in two goes; a Need is 28 bytes, and a
/// rig has millions. `dependencies` with its lists, its gates included. Bones that are not marked, as in LateGraph, are left out.
void wire(const Rig& rig, const Numbering& numbering, const Dependencies& dependencies, std::span<const std::uint8_t> marked,
          const std::function<void(std::span<const Need>)>& use);

/// The parts that a constraint writes on its owner, or on its chain.
Parts parts_written(const Constraint& constraint);

/// The parts that a constraint reads of a source at its base.
Parts parts_read(const Constraint& constraint, const Source& source);

// Where the makers of a kind begin; build_dependencies lays them out so.
MakerId stack_maker(const Rig& rig, BoneId bone);
MakerId parent_maker(const Rig& rig, BoneId child);
MakerId curve_maker(const Rig& rig, BoneId bone);
MakerId follows_maker(const Rig& rig, ObjectId object);
MakerId constraint_maker(const Rig& rig, ConstraintId constraint);
MakerId driver_maker(const Rig& rig, const Dependencies& dependencies, DriverId driver);

}  // namespace ligament
