// What is not the same about two partners, where the rest frames are at hand?
#pragma once

#include "ligament/sides.hpp"
#include "rest_frames.hpp"

namespace ligament {

/// As the one without frames, which are asked for only where something is on a side.
SideDifferences find_side_differences(const Rig& rig, const Sides& sides, const RestFrames& frames, double mirror_distance);

}  // namespace ligament
