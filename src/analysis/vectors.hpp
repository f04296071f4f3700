// What do places and directions take? The few vectors and quaternions of the rest pose.
#pragma once

#include <array>
#include <cmath>
#include <numbers>

namespace ligament {

using Vector3 = std::array<double, 3>;
using Quaternion = std::array<double, 4>;  ///< x y z w, as glTF 2.0 writes it

inline Vector3 plus(const Vector3& a, const Vector3& b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
inline Vector3 minus(const Vector3& a, const Vector3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
inline Vector3 scaled(const Vector3& a, double by) { return {a[0] * by, a[1] * by, a[2] * by}; }
inline double dot(const Vector3& a, const Vector3& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
inline double length_of(const Vector3& a) { return std::sqrt(dot(a, a)); }
inline double distance_between(const Vector3& a, const Vector3& b) { return length_of(minus(a, b)); }

inline Vector3 cross(const Vector3& a, const Vector3& b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

/// The part of `a` that is square to `line`, which has a length.
inline Vector3 square_to(const Vector3& line, const Vector3& a) { return minus(a, scaled(line, dot(a, line) / dot(line, line))); }

inline double degrees(double radians) { return radians * 180 / std::numbers::pi; }

/// In degrees, 0 to 180, exact for small angles, too (Kahan: atan2 of sine and cosine). 0 where one has no length.
inline double angle_between(const Vector3& a, const Vector3& b) { return degrees(std::atan2(length_of(cross(a, b)), dot(a, b))); }

/// The turn of `a` after `b`.
inline Quaternion product(const Quaternion& a, const Quaternion& b) {
    return {a[3] * b[0] + a[0] * b[3] + a[1] * b[2] - a[2] * b[1], a[3] * b[1] - a[0] * b[2] + a[1] * b[3] + a[2] * b[0],
            a[3] * b[2] + a[0] * b[1] - a[1] * b[0] + a[2] * b[3], a[3] * b[3] - a[0] * b[0] - a[1] * b[1] - a[2] * b[2]};
}

/// The angle of the turn that takes one rotation to the other, in degrees, 0 to 180. Both are of length 1.
inline double angle_between(const Quaternion& a, const Quaternion& b) {
    const Quaternion turn = product({-a[0], -a[1], -a[2], a[3]}, b);
    return degrees(2 * std::atan2(length_of({turn[0], turn[1], turn[2]}), std::abs(turn[3])));
}

}  // namespace ligament
