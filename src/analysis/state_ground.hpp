// What is the same in every state? Where motion starts, in which order it spreads, and what a switched constraint decides.
#pragma once

#include <cstdint>
#include <vector>

#include "motion.hpp"
#include "reach_marks.hpp"
#include "state_gates.hpp"

namespace ligament {

/// Where a rig lists no roots, these are to be found in every state anew. Root controls reach every deform bone that is reached,
/// so they are among those that reach any one of them. Of some deform bones the ones that the fewest controls reach give the
/// candidates: controls that can reach them in some state, so that such a bone shows in every state in which it is reached that
/// no other control is a root control; where these are too many, those that do by default.
struct StateGround {
    std::vector<BoneId> deform;           ///< in file order
    std::vector<std::uint32_t> place_of;  ///< by bone: place in `deform`, or none
    std::vector<std::uint32_t> group_of;  ///< by vertex of the motion graph: its group in the order of what moves
    StateGates gates;
    std::vector<BoneId> candidates;      ///< ascending; none where the rig lists its roots
    bool has_others = false;             ///< some control is no candidate
    std::vector<std::uint8_t> start_of;  ///< by vertex: what motion starts there, as an index into starts
    std::vector<Reachers> starts;        ///< nobody, a control that is no candidate, a listed root, each candidate

    Reachers candidate_bits() const {
        return ~Reachers{0} >> (most_candidates - candidates.size()) & ~(any_control | other_control);
    }
};

/// `in_default_state`: what the default state makes of the weights.
StateGround find_state_ground(const Rig& rig, const Dependencies& dependencies, const LiveMotion& live,
                              const Liveness& in_default_state);

}  // namespace ligament
