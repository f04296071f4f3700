// Which boxes and arrows does a rig come to once drivers are folded into the arrows that they make?
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "ligament/facts.hpp"

namespace ligament {

/// A bone, property, object or solver.
struct FoldedVertex {
    VertexKind kind = VertexKind::bone;
    std::uint32_t element = none;  ///< bone, property or object id, or the constraint id of a solver
    std::uint32_t cycle = 0;       ///< from 1: its place in Facts::cycles; 0 = in none
};

/// All edges of one kind from one vertex to another that are alike in being inert.
struct FoldedArrow {
    std::uint32_t from = none, to = none;  ///< indices into FoldedRig::vertices
    EdgeKind kind = EdgeKind::parent;
    bool inert = false;
    bool witness = false;           ///< part of the witness of its cycle
    std::uint32_t cycle = 0;        ///< both ends lie in this cycle and the arrow is not inert
    std::vector<MakerId> makers;    ///< what made them, without repeats; of a driver what it drives
    std::vector<DriverId> drivers;  ///< kind driver: the drivers folded in, in step with `makers`
};

/// The bone grain without drivers. Vertices: bones, properties, objects, solvers, each in file order; arrows by `to`, then
/// `from`.
struct FoldedRig {
    std::vector<FoldedVertex> vertices;
    std::vector<FoldedArrow> arrows;
    std::size_t bones = 0;            ///< in the whole rig
    std::size_t bones_kept = 0;       ///< among the vertices
    std::size_t unused_left_out = 0;  ///< properties that neither drive nor are driven
};

/// Folds the whole rig. Time and space grow with the edges, and with inputs times targets of a driver (one target each).
FoldedRig fold(const Rig& rig, const Dependencies& dependencies, const Facts& facts);

/// Of each vertex whether it lies up to `hops` bones from `around`, along arrows or against them, not both in turn: what it needs
/// and what it moves. Properties, objects and solvers count no hop of their own; they are kept where they lead on to a bone
/// within reach.
std::vector<bool> find_around(const FoldedRig& whole, BoneId around, unsigned hops);

/// The part of a folded rig that has these vertices, in this order, and of these arrows those with both ends among them.
FoldedRig part_of(const FoldedRig& whole, const std::vector<std::uint32_t>& vertices, const std::vector<std::uint32_t>& arrows);

}  // namespace ligament
