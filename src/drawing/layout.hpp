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
    enum class Layer : std::uint8_t { any, first, last };
    struct Node {
        double width = 0, height = 0;
        Layer layer = Layer::any;
    };
    struct Link {
        std::uint32_t from = 0, to = 0;
        unsigned weight = 1;  ///< how much it wants to be short and straight; 0 = does not matter
    };
    std::vector<Node> nodes;
    std::vector<Link> links;
    std::vector<Link> ties;  ///< are laid out, and not drawn
    double layer_gap = 44;   ///< between layers, for labels
};

/// A line from one box to another: cubic Bezier pieces (1 + 3n points), then a straight bit to `tip`, which the head covers.
struct Curve {
    std::vector<Point> points;
    Point tip;
};

/// One entry for each node and link of the task, all within width and height.
struct Layout {
    std::vector<Rect> boxes;
    std::vector<Curve> curves;
    double width = 0, height = 0;
};

/// How a layered layout is made. None is best for every rig.
struct LayoutVariant {
    double effort = 1;     ///< how long crossings are worked on
    bool borders = false;  ///< boxes of the first and last layer stay there
    double gap = 1;        ///< factor of the gap between layers
    bool plain = false;    ///< ignores weights and ties, as dot would lay out the bare boxes and arrows
};

/// Loads what lays out, so that processes which are forked from here on need not. Gives what is wrong where
/// that fails: lay_out_layered then throws.
std::string prepare_layouts();

/// Layered layout (Graphviz's dot), top down, in this process: unbounded in time, and a fault in it is a crash.
Layout lay_out_layered(const LayoutTask& task, const LayoutVariant& variant = {});

/// Of several layered layouts, of boxes at the borders of which some stay there, the least tangled that fits into the room; of
/// those that do not the one that comes nearest. None crosses itself more than `crossings_over_plain` times as often as the plain
/// one: better a port among the bones than a knot.
Layout lay_out_in(const LayoutTask& task, double width, double height);
inline constexpr double crossings_over_plain = 1.1;

/// How often lines cross. Time grows with the square of the lines.
std::size_t crossings_of(const Layout& layout);

/// How hard a layout is to follow: the length of its lines in px plus 100 for each crossing and its area over 100.
double tangle_of(const Layout& layout);

/// Boxes in rows by the order in which they stand, arrows straight across: always works, in linear time.
Layout lay_out_grid(const LayoutTask& task);

}  // namespace ligament
