// How is what a rig description says about a bone, a constraint or a property put in one cell of a table?
#pragma once

#include <array>
#include <string>

#include "ligament/rig.hpp"

namespace ligament::checks {

/// "0.5", or the driver: "1 - s, s = property wing_mode_l"; "curve 0:0 1:0.5 over bone slide position.y". Long curves are cut and
/// say so.
std::string value_words(const Rig& rig, const Value& value);

/// "wing_arm_ik_l", "neck at 0.5, curved", "object perch".
std::string source_words(const Rig& rig, const Source& source);

/// "position rotation.x": whole parts by their name, else channel by channel. "none" for an empty set.
std::string channels_words(Channels channels);

/// "0.1, 0.2, 0", rounded to six decimals.
std::string place_words(const std::array<double, 3>& place);

/// A measured number with at most so many decimals, never rounded to 0: "0.02", "less than 0.001".
std::string measured_words(double number, unsigned decimals);

/// The name of a bone, or "none".
std::string bone_words(const Rig& rig, BoneId bone);

}  // namespace ligament::checks
