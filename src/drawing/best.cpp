// Which of several layouts is easiest to follow?
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "labels.hpp"
#include "layout.hpp"

namespace ligament {

namespace {

/// The first one is plain. Later ones are tried while none that keeps the borders fits.
constexpr std::array<LayoutVariant, 6> variants{{{.plain = true},
                                                 {.effort = 2, .borders = true},
                                                 {.effort = 2, .borders = true, .plain = true},
                                                 {.effort = 2, .borders = true, .gap = 0.6},
                                                 {.effort = 2},
                                                 {.effort = 2, .gap = 0.6}}};
constexpr double cost_of_crossing = 100, cost_of_area = 0.01;

struct Line {
    std::vector<Point> points;
    Rect bounds;
    double length = 0;
};

Line line_of(const Curve& curve) {
    Line line;
    const std::size_t pieces = 8 * ((curve.points.size() - 1) / 3);
    for (std::size_t i = 0; i <= pieces; ++i)
        line.points.push_back(point_at(curve, static_cast<double>(i) / static_cast<double>(pieces)));
    Point low = line.points.front(), high = low;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
        const Point a = line.points[i - 1], b = line.points[i];
        line.length += std::hypot(b.x - a.x, b.y - a.y);
        low = {std::min(low.x, b.x), std::min(low.y, b.y)};
        high = {std::max(high.x, b.x), std::max(high.y, b.y)};
    }
    line.bounds = {low.x, low.y, high.x - low.x, high.y - low.y};
    return line;
}

double side_of(Point a, Point b, Point p) { return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x); }

bool cross(Point a, Point b, Point c, Point d) {
    return side_of(a, b, c) * side_of(a, b, d) < 0 && side_of(c, d, a) * side_of(c, d, b) < 0;
}

std::size_t crossings_of(const Line& one, const Line& other) {
    std::size_t count = 0;
    for (std::size_t i = 1; i < one.points.size(); ++i)
        for (std::size_t k = 1; k < other.points.size(); ++k)
            count += cross(one.points[i - 1], one.points[i], other.points[k - 1], other.points[k]);
    return count;
}

std::size_t crossings_among(const std::vector<Line>& lines) {
    std::size_t count = 0;
    for (std::size_t i = 0; i < lines.size(); ++i)
        for (std::size_t k = i + 1; k < lines.size(); ++k)
            if (lines[i].bounds.overlaps(lines[k].bounds)) count += crossings_of(lines[i], lines[k]);
    return count;
}

}  // namespace

std::size_t crossings_of(const Layout& layout) {
    std::vector<Line> lines;
    for (const Curve& curve : layout.curves) lines.push_back(line_of(curve));
    return crossings_among(lines);
}

double tangle_of(const Layout& layout) {
    std::vector<Line> lines;
    double cost = layout.width * layout.height * cost_of_area;
    for (const Curve& curve : layout.curves) {
        lines.push_back(line_of(curve));
        cost += lines.back().length;
    }
    return cost + cost_of_crossing * static_cast<double>(crossings_among(lines));
}

Layout lay_out_in(const LayoutTask& task, double width, double height) {
    struct Rated {
        Layout layout;
        double over;  // how far it does not fit, as a factor
        bool borders;
        double tangle;
    };
    auto over = [&](const Layout& l) { return std::max({1.0, l.width / width, l.height / height}); };
    std::optional<Rated> best;
    std::size_t plain = 0;
    for (std::size_t i = 0; i < variants.size(); ++i) {
        if (best && best->over == 1 && best->borders) break;
        Rated now{lay_out_layered(task, variants[i]), 1, variants[i].borders, 0};
        const std::size_t crossings = crossings_of(now.layout);
        if (i == 0) plain = crossings;
        if (static_cast<double>(crossings) > crossings_over_plain * static_cast<double>(plain)) continue;
        now.over = over(now.layout);
        now.tangle = tangle_of(now.layout);
        const bool better = !best || now.over < best->over ||
                            (now.over == best->over &&
                             (now.borders > best->borders || (now.borders == best->borders && now.tangle < best->tangle)));
        if (better) best = std::move(now);
    }
    return std::move(best->layout);
}

}  // namespace ligament
