// Where does everything go? Sizes in, places out, for whatever lays a plan out.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace ligament {

/// In px of the picture's natural size, y down.
struct Point {
    double x = 0, y = 0;
};

struct Rect {
    double x = 0, y = 0, width = 0, height = 0;

    double right() const { return x + width; }
    double bottom() const { return y + height; }
    Point centre() const { return {x + width / 2, y + height / 2}; }
    bool overlaps(const Rect& other) const {
        return x < other.right() && other.x < right() && y < other.bottom() && other.y < bottom();
    }
    bool contains(const Rect& other) const {
        return x <= other.x && y <= other.y && other.right() <= right() && other.bottom() <= bottom();
    }
};

/// Sizes of boxes, and who is tied to whom.
struct LayoutTask {
    struct Node {
        double width = 0, height = 0;
        std::uint32_t group = 0xffff'ffff;
    };
    struct Link {
        std::uint32_t from = 0, to = 0;
        unsigned weight = 1;  ///< how much it wants to be short and straight; 0 = does not matter
    };
    std::vector<Node> nodes;
    std::vector<Link> links;
    std::vector<Link> ties;  ///< are laid out, and not drawn
    std::uint32_t groups = 0;
    double column_gap = 80;  ///< between layers, for labels
};

/// A line from one box to another: cubic Bezier pieces (1 + 3n points), then a straight bit to `tip`, which the head covers.
struct Curve {
    std::vector<Point> points;
    Point tip;
};

/// One entry for each node, group and link of the task. A group's rectangle holds its boxes and leaves `group_title` free above.
struct Layout {
    std::vector<Rect> boxes;
    std::vector<Rect> groups;
    std::vector<Curve> curves;
    double width = 0, height = 0;
};

inline constexpr double group_title_height = 22;

/// How a layered layout is made. None is best for every rig.
struct LayoutVariant {
    double effort = 1;           ///< how long crossings are worked on
    bool ranks_by_group = true;  ///< groups are put into layers one by one, not the whole rig at once
    bool equal_weights = false;  ///< ignores the weights of links
};

/// Layered layout (Graphviz's dot), left to right, in this process: unbounded in time, and a fault in it is a crash.
Layout lay_out_layered(const LayoutTask& task, const LayoutVariant& variant = {});

/// Up to this many nodes and links together several variants are tried.
inline constexpr std::size_t variants_limit = 1'500;

/// The least tangled of several layered layouts, the first one on ties; of larger tasks the plain one.
Layout lay_out_best(const LayoutTask& task);

/// How hard a layout is to follow: the length of its lines in px plus 100 for each crossing. Time grows with the square of the
/// lines.
double tangle_of(const Layout& layout);

/// Boxes in rows by the order in which they stand, arrows straight across: always works, in linear time.
Layout lay_out_grid(const LayoutTask& task);

/// For the way between processes.
std::vector<double> flatten(const Layout& layout);
std::optional<Layout> unflatten(const std::vector<double>& values, const LayoutTask& task);

}  // namespace ligament
