#include "gltf_rest.hpp"

#include <algorithm>
#include <cmath>

namespace ligament {

namespace {

using Column = std::array<double, 3>;
using Columns = std::array<Column, 3>;

double dot(const Column& a, const Column& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

double determinant(const Columns& m) {
    return m[0][0] * (m[1][1] * m[2][2] - m[2][1] * m[1][2]) - m[1][0] * (m[0][1] * m[2][2] - m[2][1] * m[0][2]) +
           m[2][0] * (m[0][1] * m[1][2] - m[1][1] * m[0][2]);
}

// The unit quaternion x y z w of a rotation matrix: the largest of its four numbers first, so that nothing small is divided by
// (Shepperd 1978).
std::array<double, 4> quaternion_of(const Columns& m) {
    const double x = m[0][0], y = m[1][1], z = m[2][2], trace = x + y + z;
    std::array<double, 4> q{m[1][2] - m[2][1], m[2][0] - m[0][2], m[0][1] - m[1][0], 1 + trace};
    if (trace <= 0) {
        if (x >= y && x >= z)
            q = {1 + x - y - z, m[0][1] + m[1][0], m[2][0] + m[0][2], m[1][2] - m[2][1]};
        else if (y >= z)
            q = {m[0][1] + m[1][0], 1 - x + y - z, m[1][2] + m[2][1], m[2][0] - m[0][2]};
        else
            q = {m[2][0] + m[0][2], m[1][2] + m[2][1], 1 - x - y + z, m[0][1] - m[1][0]};
    }
    const double length = std::sqrt(q[0] * q[0] + q[1] * q[1] + q[2] * q[2] + q[3] * q[3]);
    if (!(length > 0)) return {0, 0, 0, 1};
    for (double& number : q) number /= length;
    return q;
}

bool is_sheared(const Columns& unit) {
    constexpr double tolerance = 5e-4;
    return std::abs(dot(unit[0], unit[1])) > tolerance || std::abs(dot(unit[0], unit[2])) > tolerance ||
           std::abs(dot(unit[1], unit[2])) > tolerance;
}

Rest rest_of_matrix(const GltfTaker& taker, std::uint32_t node, const std::array<double, 16>& matrix) {
    Rest rest;
    rest.translation = {matrix[12], matrix[13], matrix[14]};
    Columns columns{};
    for (std::size_t column = 0; column < 3; ++column)
        for (std::size_t row = 0; row < 3; ++row) columns[column][row] = matrix[4 * column + row];
    const double sign = determinant(columns) < 0 ? -1 : 1;
    for (std::size_t column = 0; column < 3; ++column) {
        double& scale = rest.scale[column];
        scale = std::sqrt(dot(columns[column], columns[column]));
        if (column == 0) scale *= sign;
        if (scale == 0 || !std::isfinite(scale)) continue;
        for (double& number : columns[column]) number /= scale;
    }
    if (is_sheared(columns)) taker.remark(taker.json.find(node, "matrix"), "the matrix has a shear, which no bone can have");
    const bool has_rotation = rest.scale[0] != 0 && rest.scale[1] != 0 && rest.scale[2] != 0;
    if (has_rotation) rest.rotation = quaternion_of(columns);
    return rest;
}

void check_rotation(const GltfTaker& taker, std::uint32_t node, Rest& rest) {
    constexpr double tolerance = 5e-4;
    const auto& q = rest.rotation;
    const double length = std::sqrt(q[0] * q[0] + q[1] * q[1] + q[2] * q[2] + q[3] * q[3]);
    if (std::abs(length - 1) <= tolerance) return;
    taker.remark(taker.json.find(node, "rotation"), "the rotation is no unit quaternion");
    if (!(length > 0) || !std::isfinite(length)) rest.rotation = {0, 0, 0, 1};
}

}  // namespace

Rest take_gltf_rest(const GltfTaker& taker, std::uint32_t node) {
    Rest rest;
    std::array<double, 16> matrix{};
    const bool has_matrix = taker.numbers(node, "matrix", matrix);
    const bool has_translation = taker.numbers(node, "translation", rest.translation);
    const bool has_rotation = taker.numbers(node, "rotation", rest.rotation);
    const bool has_scale = taker.numbers(node, "scale", rest.scale);
    if (has_rotation) check_rotation(taker, node, rest);
    if (!has_matrix) return rest;
    if (has_translation || has_rotation || has_scale)
        taker.remark(taker.json.find(node, "matrix"), "a node has a matrix or translation, rotation and scale, found both");
    rest = rest_of_matrix(taker, node, matrix);
    const auto is_finite = [](double number) { return std::isfinite(number); };
    if (std::all_of(rest.scale.begin(), rest.scale.end(), is_finite)) return rest;
    taker.remark(taker.json.find(node, "matrix"), "the numbers of the matrix are too large");
    return {};
}

}  // namespace ligament
