// Is the rest of a node what its matrix or its translation, rotation and scale say? Source: glTF 2.0 (ISO/IEC 12113:2022),
// section 3.5.2: the local transform is T * R * S, matrices are column-major and can be decomposed so, rotations are unit
// quaternions x y z w.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "gltf_text.hpp"

namespace ligament::testing {
namespace {

using Matrix = std::array<double, 16>;
using Vector = std::array<double, 3>;
using Quaternion = std::array<double, 4>;

std::string text_of(const Matrix& matrix) {
    std::string text;
    for (const double number : matrix) {
        char digits[40];
        std::snprintf(digits, sizeof digits, "%.17g", number);
        text += (text.empty() ? "" : ", ") + std::string(digits);
    }
    return "'matrix': [" + text + "]";
}

Rest rest_of(const std::string& node) {
    const Rig rig = gltf_rig("'nodes': [{" + node + "}]");
    return rig.bones.at(0).rest.value();
}
std::string remarks_of(const std::string& node) { return gltf_remarks("'nodes': [{" + node + "}]"); }

Vector cross(const Vector& a, const Vector& b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

// v + 2 w (u x v) + 2 u x (u x v), for the quaternion (u, w).
Vector rotated(const Quaternion& q, const Vector& v) {
    const Vector u{q[0], q[1], q[2]}, once = cross(u, v), twice = cross(u, once);
    return {v[0] + 2 * (q[3] * once[0] + twice[0]), v[1] + 2 * (q[3] * once[1] + twice[1]),
            v[2] + 2 * (q[3] * once[2] + twice[2])};
}

// T * R * S: column k is where the k-th axis goes, the last one the translation.
Matrix composed(const Rest& rest) {
    Matrix matrix{};
    for (std::size_t k = 0; k < 3; ++k) {
        Vector axis{};
        axis[k] = rest.scale[k];
        const Vector column = rotated(rest.rotation, axis);
        for (std::size_t row = 0; row < 3; ++row) matrix[4 * k + row] = column[row];
        matrix[12 + k] = rest.translation[k];
    }
    matrix[15] = 1;
    return matrix;
}

void expect_recomposed(const Matrix& matrix) {
    const Rest rest = rest_of(text_of(matrix));
    const Quaternion& q = rest.rotation;
    EXPECT_NEAR(q[0] * q[0] + q[1] * q[1] + q[2] * q[2] + q[3] * q[3], 1, 1e-12);
    const Matrix again = composed(rest);
    for (std::size_t i = 0; i < 16; ++i) EXPECT_NEAR(again[i], matrix[i], 1e-12) << "entry " << i << " of " << text_of(matrix);
}

TEST(gltf_rest, is_that_of_translation_rotation_and_scale) {
    const Rest rest = rest_of("'translation': [1, -2, 3.5], 'rotation': [0, 0.6, 0, 0.8], 'scale': [1, 2, -1]");
    EXPECT_EQ(rest.translation, (Vector{1, -2, 3.5}));
    EXPECT_EQ(rest.rotation, (Quaternion{0, 0.6, 0, 0.8}));
    EXPECT_EQ(rest.scale, (Vector{1, 2, -1}));
    const Rest plain = rest_of("");
    EXPECT_EQ(plain.translation, (Vector{0, 0, 0}));
    EXPECT_EQ(plain.rotation, (Quaternion{0, 0, 0, 1}));
    EXPECT_EQ(plain.scale, (Vector{1, 1, 1}));
}

// By hand: a rotation by 90 degrees about z takes x to y and y to -x; columns stand one behind the other.
TEST(gltf_rest, of_rotations_by_90_degrees) {
    const double half = std::sqrt(0.5);
    const std::array<std::pair<Matrix, Quaternion>, 4> cases{
        {{{1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 5, 6, 7, 1}, {0, 0, 0, 1}},
         {{1, 0, 0, 0, 0, 0, 1, 0, 0, -1, 0, 0, 5, 6, 7, 1}, {half, 0, 0, half}},
         {{0, 0, -1, 0, 0, 1, 0, 0, 1, 0, 0, 0, 5, 6, 7, 1}, {0, half, 0, half}},
         {{0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1, 0, 5, 6, 7, 1}, {0, 0, half, half}}}};
    for (const auto& [matrix, rotation] : cases) {
        const Rest rest = rest_of(text_of(matrix));
        EXPECT_EQ(rest.translation, (Vector{5, 6, 7}));
        EXPECT_EQ(rest.scale, (Vector{1, 1, 1}));
        for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(rest.rotation[i], rotation[i], 1e-12) << text_of(matrix);
        expect_recomposed(matrix);
    }
}

TEST(gltf_rest, of_matrices_recomposes_them) {
    const double third = std::sqrt(1.0 / 3);
    // Unit axes, among them those where two of the numbers of a half turn are equal.
    const std::vector<Vector> axes{{1, 0, 0},
                                   {0, 1, 0},
                                   {0, 0, 1},
                                   {0.6, 0.8, 0},
                                   {0, 0.6, -0.8},
                                   {-0.8, 0, 0.6},
                                   {0.48, 0.6, 0.64},
                                   {third, third, third},
                                   {third, -third, third}};
    const std::vector<Vector> scales{{1, 1, 1},  {2, 3, 0.5},  {-1, 1, 1},  {1, -2, 1},
                                     {1, 1, -3}, {-1, -1, -1}, {-1, 2, -1}, {1e-3, 1, 1}};
    for (const Vector& axis : axes)
        for (const double degrees : {1.0, 60.0, 90.0, 119.0, 120.0, 179.0, 180.0, 181.0, 270.0, 359.0})
            for (const Vector& scale : scales) {
                const double half = degrees * std::acos(-1.0) / 360, s = std::sin(half);
                const Rest rest{{0.1, -7, 30}, {axis[0] * s, axis[1] * s, axis[2] * s, std::cos(half)}, scale};
                expect_recomposed(composed(rest));
            }
}

TEST(gltf_rest, is_the_matrix_where_both_are_given) {
    const std::string node = "'translation': [1, 1, 1], " + text_of({2, 0, 0, 0, 0, 2, 0, 0, 0, 0, 2, 0, 5, 6, 7, 1});
    EXPECT_EQ(remarks_of(node), "/nodes/0/matrix: broken: a node has a matrix or translation, rotation and scale, found both\n");
    EXPECT_EQ(rest_of(node).translation, (Vector{5, 6, 7}));
    EXPECT_EQ(rest_of(node).scale, (Vector{2, 2, 2}));
}

TEST(gltf_rest, of_a_sheared_matrix_is_remarked_on) {
    EXPECT_EQ(remarks_of(text_of({1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1})),
              "/nodes/0/matrix: broken: the matrix has a shear, which no bone can have\n");
    EXPECT_EQ(remarks_of(text_of({1, 0, 0, 0, 1e-5, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1})), "");  // what single floats lose
}

TEST(gltf_rest, of_a_flat_matrix_has_scale_0) {
    const Rest rest = rest_of(text_of({0, 0, 0, 0, 0, 2, 0, 0, 0, 0, 3, 0, 1, 2, 3, 1}));
    EXPECT_EQ(rest.scale, (Vector{0, 2, 3}));
    EXPECT_EQ(rest.rotation, (Quaternion{0, 0, 0, 1}));
    EXPECT_EQ(rest.translation, (Vector{1, 2, 3}));
}

TEST(gltf_rest, tells_rotations_that_are_none) {
    const std::string told = "/nodes/0/rotation: broken: the rotation is no unit quaternion\n";
    EXPECT_EQ(remarks_of("'rotation': [0, 0, 0, 2]"), told);
    EXPECT_EQ(remarks_of("'rotation': [0, 0, 0, 0]"), told);
    EXPECT_EQ(remarks_of("'rotation': [1e200, 0, 0, 0]"), told);
    EXPECT_EQ(remarks_of("'rotation': [0.7071, 0, 0, 0.7071]"), "");  // rounded
    EXPECT_EQ(rest_of("'rotation': [0, 0, 0, 0]").rotation, (Quaternion{0, 0, 0, 1}));
    EXPECT_EQ(rest_of("'rotation': [1e200, 0, 0, 0]").rotation, (Quaternion{0, 0, 0, 1}));
}

TEST(gltf_rest, tells_numbers_that_are_too_large) {
    const std::string node = text_of({1e300, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1});
    EXPECT_EQ(remarks_of(node), "/nodes/0/matrix: broken: the numbers of the matrix are too large\n");
    EXPECT_EQ(rest_of(node).scale, (Vector{1, 1, 1}));
    const Rest large = rest_of(text_of({-1e150, 0, 0, 0, 0, 1e150, 0, 0, 0, 0, 1e150, 0, 0, 0, 0, 1}));
    EXPECT_EQ(large.scale, (Vector{-1e150, 1e150, 1e150}));
}

TEST(gltf_rest, wants_as_many_numbers_as_the_standard_says) {
    EXPECT_EQ(gltf_faults("'nodes': [{'translation': [1, 2], 'rotation': [0, 0, 0, 'x'], 'matrix': [1]}]"),
              "/nodes/0/translation: \"translation\" wants 3 numbers, found 2\n"
              "/nodes/0/rotation: \"rotation\" wants 4 numbers, found something else among them\n"
              "/nodes/0/matrix: \"matrix\" wants 16 numbers, found 1\n");
}

}  // namespace
}  // namespace ligament::testing
