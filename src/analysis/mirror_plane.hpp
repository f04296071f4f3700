// In which plane is the rig mirrored at rest?
#pragma once

#include <optional>
#include <span>
#include <utility>

#include "ligament/sides.hpp"
#include "vectors.hpp"

namespace ligament {

inline Vector3 mirrored_in(const MirrorPlane& plane, Vector3 point) {
    point[plane.axis] = 2 * plane.offset - point[plane.axis];
    return point;
}

/// The plane across which most of the pairs of places are mirrored to within `distance`: square to x, z or y through 0, in this
/// order; or through the middle of the middles where that fits more, and at least three. None without pairs.
std::optional<MirrorPlane> find_mirror_plane(std::span<const std::pair<Vector3, Vector3>> pairs, double distance);

}  // namespace ligament
