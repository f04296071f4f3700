// Where does a bone stand at rest? Places in the world, and the transform of a bone relative to its parent.
#pragma once

#include <array>

#include "ligament/rig.hpp"

namespace heron {

using Vec3 = std::array<double, 3>;
using Quaternion = std::array<double, 4>;  ///< x y z w, of length 1

/// A bone at rest in the world: it begins at `origin` and runs along its own +Y for `length`. Metres; +Y up, facing +Z, the left
/// side at +X.
struct Stick {
    Vec3 origin{0, 0, 0};
    Quaternion turn{0, 0, 0, 1};
    double length = 0.1;
};

/// The bone from `from` to `to`; its own +X is turned as near to `hinge` as can be, so that bending is a turn about X.
Stick stick(const Vec3& from, const Vec3& to, const Vec3& hinge);

/// A bone with the axes of the world.
Stick upright(const Vec3& origin, double length);

/// The stretch of a bone between two fractions of its length, with the same axes.
Stick part_of(const Stick& whole, double begin, double end);

/// Mirrored in the plane x = 0: x negated, and of the quaternion y and z.
Stick mirrored(const Stick& stick);

/// The end of a bone.
Vec3 tip_of(const Stick& stick);

/// The normalized blend of two turns: (1 - share) of the first and `share` of the second.
Quaternion blend(const Quaternion& first, const Quaternion& second, double share);

/// A place in the plane of the joints a, b, c, `distance` away from b on the side to which b is bent.
Vec3 pole_of(const Vec3& a, const Vec3& b, const Vec3& c, double distance);

/// `child` as seen from `parent`, rounded to a micrometre, so that every machine writes the same digits.
ligament::Rest rest_between(const Stick& parent, const Stick& child);

/// Rounded to six decimals, without a negative zero.
double rounded(double number);

}  // namespace heron
