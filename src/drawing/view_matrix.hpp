// What do the parts of the view of the matrix share? Which bone needs which, and an order of evaluation that keeps groups
// together.
#pragma once

#include <vector>

#include "views.hpp"
#include "word_columns.hpp"

namespace ligament {

/// A bone needs another one, directly or through properties, objects and solvers.
struct BoneNeed {
    BoneId bone = none, needed = none;
    EdgeKind kind = EdgeKind::parent;  ///< of the last dependency on the way; of several the first of mark_order
};

/// Where a bone needs another in several ways, the mark is that of the first of these.
inline constexpr std::array<EdgeKind, 6> mark_order{EdgeKind::constraint, EdgeKind::solver, EdgeKind::driver,
                                                    EdgeKind::curve,      EdgeKind::parent, EdgeKind::order};

/// Needs that count, each pair of bones once, by bone and then by what it needs.
struct BoneNeeds {
    std::vector<BoneNeed> all;
    std::size_t inert = 0;    ///< dependencies that count for nothing and were left out
    bool is_complete = true;  ///< false where following properties, objects and solvers stopped at its bound
};
BoneNeeds find_bone_needs(const FoldedRig& folded);

/// Bones that stand together: consecutive bones of one group.
struct GroupRun {
    std::uint32_t group = 0;
    std::size_t first = 0, count = 0;  ///< places in the order
};

/// An order of evaluation: bones after what they need, but for bones of one cycle, which stand together in file order.
struct GroupedOrder {
    std::vector<BoneId> bones;
    std::vector<std::size_t> place;  ///< by bone
    std::vector<GroupRun> runs;
};

/// Kahn's method (CACM 5, 1962) on the condensation. It stays within a group as long as anything of it can be evaluated; then the
/// group comes that waits for least from other groups, nothing at best; ties go to the one that comes first in the file, as among
/// the bones of a group. A cycle stands where its first bone's group does. O(E log G) for E needs and G groups.
GroupedOrder find_grouped_order(const Subject& subject, const std::vector<BoneNeed>& needs);

/// The table on the page: cells of `per_cell` bones each.
struct Grid {
    Point origin;  ///< upper left corner
    double cell = 0;
    std::size_t per_cell = 1, cells = 0;
    bool named = false;  ///< rows have their names beside them

    double side() const { return cell * static_cast<double>(cells); }
    double at(std::size_t place) const { return cell * static_cast<double>(place / per_cell); }
    /// The square of the diagonal that bones from `first` on take.
    Rect block(std::size_t first, std::size_t count) const;
};

/// A need that lies above the diagonal, or on it where a bone needs itself.
struct LoudNeed {
    BoneNeed need;
    std::uint32_t cycle = 0;  ///< from 1
};

struct Matrix {
    const Subject& subject;
    BoneNeeds needs;
    GroupedOrder order;
    std::vector<LoudNeed> loud;  ///< by place of the bone, then of what it needs

    explicit Matrix(const Subject& subject);
};

/// Marks of different shapes want cells of at least this size, names of rows want rows so high.
inline constexpr double least_shape_cell = 6, least_named_row = 10.5;

void add_blocks(Scene& scene, const Matrix& matrix, const Grid& grid);
void add_marks(Scene& scene, const Matrix& matrix, const Grid& grid);

/// Names of cycles and groups right of their blocks, where there is room up to `right`. Returns how many blocks have none.
std::size_t add_block_names(Scene& scene, const Matrix& matrix, const Grid& grid, double right);

/// The mark of a kind around a point, no larger than a square of `size`.
std::string mark_path(EdgeKind kind, Point at, double size);

}  // namespace ligament
