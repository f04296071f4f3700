// Is each deform bone really attached? Verdicts over the channel grain, for a liveness that is at hand.
#pragma once

#include "ligament/attachment.hpp"
#include "motion.hpp"

namespace ligament {

/// As find_attachment of a state. `list_them`: with the controls of each deform bone.
AttachmentFacts find_attachment(const Rig& rig, const Dependencies& dependencies, const Liveness& liveness, bool list_them);

}  // namespace ligament
