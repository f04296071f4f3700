// Is one thing where the mirror image of another one is expected?
#pragma once

#include <map>

#include "ligament/sides.hpp"
#include "rest_frames.hpp"
#include "side_tokens.hpp"

namespace ligament {

/// What the comparison of two sides asks of references and names. Rig and sides have to stay.
struct SideMirror {
    const Rig& rig;
    const Sides& sides;
    SideTokens tokens;

    SideMirror(const Rig& of, const Sides& its) : rig(of), sides(its), tokens(of) {}

    /// Also where one of them has no mirror at all: that is told of itself.
    bool is_bone(BoneId left, BoneId right) const;
    bool is_property(PropertyId left, PropertyId right) const;
    /// An object is its own mirror, and so is the one of the mirrored name.
    bool is_object(ObjectId left, ObjectId right) const;
    bool is_name(std::string_view left, std::string_view right) const;
    /// Bone or object; not how it is read.
    bool is_source(const Source& left, const Source& right) const;
};

/// Equal but for the last digits that a file keeps.
bool is_about(double left, double right);

/// The constraints of two partners' stacks that belong together, as indices, in the order of the left stack; see find_unpaired.
std::vector<std::pair<std::uint32_t, std::uint32_t>> match_stacks(const SideMirror& mirror, const Bone& left, const Bone& right);

}  // namespace ligament
