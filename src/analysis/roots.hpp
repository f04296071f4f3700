// Which controls move everything? Root controls of a rig that does not list them.
#pragma once

#include <cstdint>
#include <vector>

#include "motion.hpp"

namespace ligament {

/// The deform bones that are reached, by which kind of control, and the root controls.
struct Reached {
    std::vector<BoneId> root_controls;  ///< in file order
    std::vector<std::uint8_t> marks;    ///< by vertex of the motion graph, see below

    static constexpr std::uint8_t any = 1;      ///< some control reaches it
    static constexpr std::uint8_t another = 2;  ///< a control that is no root control reaches it
};

/// Root controls are those listed, or else those that reach every deform bone that any control reaches; none where no deform
/// bone is reached. No search per control: linear unless more than 62 controls reach the same first, last and sampled deform
/// bones without a common vertex on their ways, then one pass over the rig more for each 62 of them.
Reached find_reached(const Rig& rig, const Dependencies& dependencies, const Motion& motion);

}  // namespace ligament
