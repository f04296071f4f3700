// How do many bones stand on a page in little room? Rows of a small sign for the role and the name, in columns.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "scene.hpp"
#include "views.hpp"

namespace ligament {

inline constexpr double row_size = 9.5;     ///< font size of rows
inline constexpr double row_height = 14;    ///< from one row to the next
inline constexpr double sign_width = 14;    ///< what the sign before a name takes
inline constexpr double longest_row = 180;  ///< names are cut so that no row is wider

/// One row: a bone, a group of bones, or words alone.
struct Row {
    enum class Sign : std::uint8_t { nothing, control, mechanism, deform, control_deform, group, property };
    std::string words{};  ///< drawable, whole
    std::string note{};   ///< what stands behind them, a verdict or a cycle: cut only where it would take three quarters
    Sign sign = Sign::nothing;
    Tone tone = Tone::ink;
    bool bold = false;
    bool hatched = false;  ///< the sign of a deform bone that is not attached
    std::string hover{};
    About about{};
};

Shape role_shape(const Bone& bone);

/// A bone with nothing but its role.
Row plain_row_of(const Subject& subject, BoneId bone);

/// A bone with its verdict and cycle behind the name, where these are to be known.
Row row_of(const Subject& subject, BoneId bone, bool with_cycle = true);

/// A bone as a full box, the name cut so that the box is no wider than `width`.
Box box_of(const Subject& subject, BoneId bone, double width);

/// What a hover title says of a bone.
std::string hover_of(const Subject& subject, BoneId bone);

/// From 1: the place of a bone's cycle in Facts::cycles; 0 where it is in none.
std::uint32_t cycle_of(const Subject& subject, BoneId bone);

double width_of(const Row& row);  ///< sign and words, uncut

/// Draws a row, its words cut so that it is no wider than `width`. `inside`: the node that it stands in.
void add_row(Scene& scene, const Row& row, Point top_left, double width, std::uint32_t inside = none);

/// Rows in columns of one width, read downwards.
struct RowGrid {
    std::size_t columns = 1, rows = 0;
    double cell = 0;  ///< width of a column, the space behind it included

    double height() const { return static_cast<double>(rows) * row_height; }
};

/// As many columns as go into `width`; no cell is wider than `widest`.
RowGrid fit_grid(const std::vector<Row>& rows, double width, double widest = longest_row);
void add_grid(Scene& scene, const std::vector<Row>& rows, const RowGrid& grid, Point top_left, std::uint32_t inside = none);

/// `text` broken at its spaces; a word that is too long for a line is cut in the middle.
std::vector<std::string> broken(std::string_view text, double size, double width);

/// Lines of one text below each other, the first one's row beginning at `top_left`. Returns the height.
double add_lines(Scene& scene, const std::vector<std::string>& lines, Point top_left, const Label& like);

/// A label on a row that begins at `top`.
Label label_at(double x, double top, std::string words, Tone tone = Tone::ink, bool bold = false);

/// What the signs of rows mean, of those that occur and are not explained by a box of the same shape.
std::vector<LegendEntry> legend_of(const std::vector<Row>& rows, const Scene& scene);

/// "Moves": a broad arrow to the right, that is no dependency.
Mark moves_mark(Point middle);

/// Makes a scene as large as what is in it, at most as large as the room.
void fit_scene(Scene& scene, Room room);

/// Numbers the sheets of one view: name, "name-2", and the titles "(2 of 3)". Says of all whether they are of a state.
void number_sheets(std::vector<Sheet>& sheets, const Subject& subject, const std::string& name, const std::string& title);

/// "heron: order of evaluation", drawable.
std::string drawable_title(const Subject& subject, std::string_view what);

/// Letters, digits, '-' and '_' of a name, the rest as '_', for the name of a file.
std::string file_word(std::string_view name);

}  // namespace ligament
