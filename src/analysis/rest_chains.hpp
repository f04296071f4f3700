// To which side are the chains of solvers bent at rest, and where do their poles lie?
#pragma once

#include <optional>
#include <vector>

#include "ligament/graph.hpp"
#include "rest_frames.hpp"

namespace ligament {

/// An ik solver's chain of two bones or more, all of a known place and length.
struct RestChain {
    ConstraintId solver = none;
    std::vector<BoneId> bones;    ///< from the root of the chain to the owner
    std::vector<Vector3> joints;  ///< where each of them begins, and the end of the owner: its tip, else the target
    double most_turned = 0;       ///< degrees by which a bone turns against the one before: the largest
    std::size_t bend = 0;         ///< the joint farthest from the line root to end, the first of several; 0 where that is no line
    /// In degrees, 0 to 180, about the line root to end: how far the pole lies from the side to which `bend` lies. None where it
    /// has no pole of a known place, is not bent, or does not lie in one plane.
    std::optional<double> pole_angle;
    bool pole_on_line = false;  ///< the pole lies on the line root to end, so that it points to no side
    BoneId pole = none;
};

/// All such chains of solvers that are not inert, in file order. Joints that differ by no more than `same_place` are one. Chains
/// with fewer than three joints left are not told of, nor those that are bent back onto themselves, as far as poles go.
/// `in_plane`: the degrees about the line by which a joint may lie beside the plane. Asks for frames only where there are
/// solvers.
std::vector<RestChain> find_rest_chains(const Rig& rig, const Dependencies& dependencies, const RestFrames& frames,
                                        double same_place, double in_plane);

}  // namespace ligament
