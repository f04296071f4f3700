// What is to be drawn? Boxes and arrows with their words, before anything has a place.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "fold.hpp"

namespace ligament {

enum class Shape : std::uint8_t { control, mechanism, deform, control_deform, property, object, solver, bundle, group };
inline constexpr std::size_t shape_count = 9;

/// What is said loudly about a box.
struct Badge {
    enum class Kind : std::uint8_t { cycle, unattached, carried };
    Kind kind = Kind::cycle;
    std::string word;
};

struct Box {
    Shape shape = Shape::mechanism;
    std::string name;            ///< drawable, whole
    std::string word;            ///< what it is, stands under the name
    std::vector<Badge> badges;   ///< beside the word
    std::string hover;           ///< drawable lines
    std::uint32_t group = none;  ///< index into Plan::groups

    bool has(Badge::Kind kind) const;
};

struct Arrow {
    std::uint32_t from = none, to = none;  ///< indices into Plan::boxes
    EdgeKind kind = EdgeKind::parent;
    bool inert = false;
    bool cycle = false;
    bool witness = false;
    std::string word;   ///< label; empty = none wanted
    std::string hover;  ///< drawable lines
};

struct Plan {
    std::vector<Box> boxes;
    std::vector<Arrow> arrows;
    std::vector<std::string> groups;                            ///< drawable names of the groups that its bones are in
    std::vector<std::pair<std::uint32_t, std::uint32_t>> ties;  ///< boxes of which the first wants to stand before the second
};

struct Subject;

/// One box a bone, property, object and solver of a part of the rig, in that order; then those of stacks that stand for several.
Plan plan_bones(const Subject& subject, const FoldedRig& part);

/// A bone as a box: shape, name, role, badges and hover title.
Box box_of_bone(const Subject& subject, BoneId bone);

}  // namespace ligament
