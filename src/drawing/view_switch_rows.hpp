// What does a property drive, in which words, and what moves by it?
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "lists.hpp"

namespace ligament {

/// Properties that drive more than this have what they drive folded by group.
inline constexpr std::size_t most_targets_named = 60;

/// Something that a driver drives, or where a run leaves one out.
struct DriveTarget {
    enum class Kind : std::uint8_t { bone, property, folded, gap };
    Kind kind = Kind::bone;
    std::uint32_t element = none;  ///< bone, property, or group where folded
    std::uint32_t constraint = none;
    std::string name;   ///< drawable
    std::string words;  ///< which weight or channel, drawable
    std::string hover;
};

/// Drivers that compute the same from the same, and what each of them drives.
struct DriveCard {
    std::string formula;              ///< drawable
    std::vector<std::string> inputs;  ///< drawable lines
    std::string hover;
    std::vector<DriveTarget> targets;
};

/// What moves of one group.
struct MovedGroup {
    std::uint32_t group = none;
    std::vector<BoneId> bones, deform;
};

struct SwitchPlan {
    PropertyId property = none;
    std::vector<DriveCard> cards;
    std::vector<MovedGroup> moved;  ///< in the order of the groups
    std::size_t targets = 0, weights = 0, channels = 0, properties = 0, constraints = 0, gaps = 0, bones_moved = 0,
                deform_moved = 0;
    bool is_folded = false;
};

SwitchPlan plan_targets(const Subject& subject, PropertyId property);

}  // namespace ligament
