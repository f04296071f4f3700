// What do the switches do to a rig of which a part is known already?
#pragma once

#include <vector>

#include "ligament/attachment.hpp"
#include "ligament/switches.hpp"
#include "motion.hpp"

namespace ligament {

/// As find_switch_facts, with what others have found before it.
SwitchFacts find_switch_facts(const Rig& rig, const Dependencies& dependencies, const std::vector<Cycle>& cycles,
                              const LiveMotion& live, const AttachmentFacts& in_default_state);

}  // namespace ligament
