// Where does a bone stand at rest? The few vectors and quaternions that this takes.
#include "frame.hpp"

#include <cmath>

namespace heron {
namespace {

Vec3 plus(const Vec3& a, const Vec3& b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
Vec3 minus(const Vec3& a, const Vec3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
Vec3 scaled(const Vec3& a, double by) { return {a[0] * by, a[1] * by, a[2] * by}; }
double dot(const Vec3& a, const Vec3& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
double length_of(const Vec3& a) { return std::sqrt(dot(a, a)); }
Vec3 unit(const Vec3& a) { return scaled(a, 1 / length_of(a)); }

Vec3 cross(const Vec3& a, const Vec3& b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

Quaternion product(const Quaternion& a, const Quaternion& b) {
    return {a[3] * b[0] + a[0] * b[3] + a[1] * b[2] - a[2] * b[1], a[3] * b[1] - a[0] * b[2] + a[1] * b[3] + a[2] * b[0],
            a[3] * b[2] + a[0] * b[1] - a[1] * b[0] + a[2] * b[3], a[3] * b[3] - a[0] * b[0] - a[1] * b[1] - a[2] * b[2]};
}

Quaternion inverse(const Quaternion& q) { return {-q[0], -q[1], -q[2], q[3]}; }

Vec3 turned(const Quaternion& q, const Vec3& v) {
    const Quaternion r = product(product(q, {v[0], v[1], v[2], 0}), inverse(q));
    return {r[0], r[1], r[2]};
}

/// The turn that takes the axes of the world to x, y, z (Shepperd 1978: divide by the largest of the four, which is never small).
Quaternion turn_to(const Vec3& x, const Vec3& y, const Vec3& z) {
    const double trace = x[0] + y[1] + z[2];
    if (trace > 0) {
        const double s = 2 * std::sqrt(1 + trace);
        return {(y[2] - z[1]) / s, (z[0] - x[2]) / s, (x[1] - y[0]) / s, s / 4};
    }
    if (x[0] >= y[1] && x[0] >= z[2]) {
        const double s = 2 * std::sqrt(1 + x[0] - y[1] - z[2]);
        return {s / 4, (x[1] + y[0]) / s, (z[0] + x[2]) / s, (y[2] - z[1]) / s};
    }
    if (y[1] >= z[2]) {
        const double s = 2 * std::sqrt(1 + y[1] - x[0] - z[2]);
        return {(x[1] + y[0]) / s, s / 4, (y[2] + z[1]) / s, (z[0] - x[2]) / s};
    }
    const double s = 2 * std::sqrt(1 + z[2] - x[0] - y[1]);
    return {(z[0] + x[2]) / s, (y[2] + z[1]) / s, s / 4, (x[1] - y[0]) / s};
}

}  // namespace

Stick stick(const Vec3& from, const Vec3& to, const Vec3& hinge) {
    const Vec3 y = unit(minus(to, from));
    const Vec3 x = unit(minus(hinge, scaled(y, dot(hinge, y))));
    return {from, turn_to(x, y, cross(x, y)), length_of(minus(to, from))};
}

Stick upright(const Vec3& origin, double length) { return {origin, {0, 0, 0, 1}, length}; }

Stick part_of(const Stick& whole, double begin, double end) {
    const Vec3 along = minus(tip_of(whole), whole.origin);
    return {plus(whole.origin, scaled(along, begin)), whole.turn, whole.length * (end - begin)};
}

Stick mirrored(const Stick& stick) {
    const auto& [o, q, length] = stick;
    return {{-o[0], o[1], o[2]}, {q[0], -q[1], -q[2], q[3]}, length};
}

Vec3 tip_of(const Stick& stick) { return plus(stick.origin, turned(stick.turn, {0, stick.length, 0})); }

Quaternion blend(const Quaternion& first, const Quaternion& second, double share) {
    double along = 0;
    for (std::size_t i = 0; i < 4; ++i) along += first[i] * second[i];
    Quaternion sum{};
    double squares = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        sum[i] = (1 - share) * first[i] + share * (along < 0 ? -second[i] : second[i]);
        squares += sum[i] * sum[i];
    }
    for (double& part : sum) part /= std::sqrt(squares);
    return sum;
}

Vec3 pole_of(const Vec3& a, const Vec3& b, const Vec3& c, double distance) {
    const Vec3 line = unit(minus(c, a));
    const Vec3 foot = plus(a, scaled(line, dot(minus(b, a), line)));
    return plus(b, scaled(unit(minus(b, foot)), distance));
}

double rounded(double number) {
    const double result = std::round(number * 1e6) / 1e6;
    return result == 0 ? 0 : result;
}

ligament::Rest rest_between(const Stick& parent, const Stick& child) {
    const Quaternion back = inverse(parent.turn);
    const Vec3 offset = turned(back, minus(child.origin, parent.origin));
    const Quaternion turn = product(back, child.turn);
    const double sign = turn[3] < -1e-9 ? -1 : 1;  // of the two quaternions of one turn, the one with w >= 0
    ligament::Rest rest;
    for (std::size_t i = 0; i < 3; ++i) rest.translation[i] = rounded(offset[i]);
    for (std::size_t i = 0; i < 4; ++i) rest.rotation[i] = rounded(sign * turn[i]);
    return rest;
}

}  // namespace heron
