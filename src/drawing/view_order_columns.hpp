// What stands in which column of the order of evaluation, and what stands apart because of cycles?
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "lists.hpp"

namespace ligament {

/// Rigs of more bones than this have the bones of a level counted by group.
inline constexpr std::size_t most_bones_named = 5'000;

/// Of a level no more groups than this are named where bones are counted.
inline constexpr std::size_t most_groups_named = 12;

/// Where bones are counted, neighbouring levels are told together so that there are no more columns than this.
inline constexpr std::size_t most_columns = 200;

/// A level, or where levels are told together a range of them.
struct OrderLevel {
    std::uint32_t first = 1, last = 1;  ///< numbers of levels
    std::size_t bones = 0;              ///< of all of them
    std::size_t apart = 0;              ///< of these in the lanes of OrderPlan
    BoneId chain = none;                ///< the bone of the longest chain, the first one of a range
    std::vector<Row> rows;              ///< the others, or their groups
};

/// Bones that cannot be evaluated in order: in a cycle, or waiting for some.
struct OrderLane {
    std::string title, hover;
    std::uint32_t cycle = 0;  ///< from 1: of those in a cycle
    std::vector<Row> rows;    ///< by level, then in file order
};

struct OrderPlan {
    std::vector<OrderLevel> levels;
    std::vector<OrderLane> lanes;
    std::size_t in_cycles = 0, waiting = 0;
    bool is_counted = false;  ///< by group
    bool has_slack = false;   ///< some bone has; those that have none are then set bold
};

OrderPlan plan_columns(const Subject& subject);

/// Lines for a hover title: the level of a bone, and how long it may wait.
std::string time_of(const Subject& subject, BoneId bone);

}  // namespace ligament
