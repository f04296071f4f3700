// Which bones lose the same controls by a cut?
#pragma once

#include <vector>

#include "ligament/cycles.hpp"

namespace ligament {

/// Bones that lose these controls, in the order of the cut's losses.
struct LossGroup {
    std::vector<BoneId> controls, bones;
};

/// In the order of their first bone.
std::vector<LossGroup> group_losses(const Cut& cut);

}  // namespace ligament
