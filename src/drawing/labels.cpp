// Where do the words on the arrows go?
#include "labels.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "text.hpp"

namespace ligament {

Point point_at(const Curve& curve, double t) {
    const std::size_t pieces = (curve.points.size() - 1) / 3;
    if (pieces == 0) return curve.tip;
    const double scaled = t * static_cast<double>(pieces);
    const std::size_t piece = std::min(pieces - 1, static_cast<std::size_t>(scaled));
    const double u = scaled - static_cast<double>(piece), v = 1 - u;
    const Point* p = &curve.points[3 * piece];
    auto blend = [&](double a, double b, double c, double d) {
        return v * v * v * a + 3 * v * v * u * b + 3 * v * u * u * c + u * u * u * d;
    };
    return {blend(p[0].x, p[1].x, p[2].x, p[3].x), blend(p[0].y, p[1].y, p[2].y, p[3].y)};
}

namespace {

constexpr double label_height = 13, padding = 3, cell = 40, spacing = 7;

struct Sample {
    Point at;
    std::uint32_t arrow;
};

/// Samples of lines, and rectangles that are taken, by square cells.
struct Map {
    std::size_t columns, rows;
    std::vector<std::vector<Sample>> samples;
    std::vector<std::vector<Rect>> taken;

    Map(double width, double height)
        : columns(static_cast<std::size_t>(std::max(0.0, width) / cell) + 1),
          rows(static_cast<std::size_t>(std::max(0.0, height) / cell) + 1),
          samples(columns * rows),
          taken(columns * rows) {}

    static std::size_t place(double value, std::size_t count) {
        return value <= 0 ? 0 : std::min(count - 1, static_cast<std::size_t>(value / cell));
    }
    template <class Visit>
    void each_cell(const Rect& rect, Visit visit) const {
        for (std::size_t row = place(rect.y, rows); row <= place(rect.bottom(), rows); ++row)
            for (std::size_t column = place(rect.x, columns); column <= place(rect.right(), columns); ++column)
                visit(row * columns + column);
    }
    void take(const Rect& rect) {
        each_cell(rect, [&](std::size_t c) { taken[c].push_back(rect); });
    }
    bool is_free(const Rect& rect) const {
        bool free = true;
        each_cell(rect, [&](std::size_t c) {
            for (const Rect& other : taken[c]) free = free && !other.overlaps(rect);
        });
        return free;
    }
    std::size_t covers(const Rect& rect, std::uint32_t own) const {
        std::size_t count = 0;
        each_cell(rect, [&](std::size_t c) {
            for (const Sample& sample : samples[c])
                count += sample.arrow != own && rect.overlaps({sample.at.x, sample.at.y, 0.01, 0.01});
        });
        return count;
    }
};

/// Points along a curve, about `spacing` apart.
std::vector<Point> samples_of(const Curve& curve) {
    double length = 0;
    for (std::size_t i = 1; i < curve.points.size(); ++i)
        length += std::hypot(curve.points[i].x - curve.points[i - 1].x, curve.points[i].y - curve.points[i - 1].y);
    const std::size_t count = std::clamp<std::size_t>(static_cast<std::size_t>(length / spacing), 40, 800);
    std::vector<Point> points;
    for (std::size_t i = 0; i <= count; ++i)
        points.push_back(point_at(curve, static_cast<double>(i) / static_cast<double>(count)));
    return points;
}

std::optional<Rect> best_place(const Map& map, const std::vector<Point>& line, double width, std::uint32_t own,
                               const Layout& layout) {
    std::optional<Rect> best;
    double least = 0;
    const Rect page{0, 0, layout.width, layout.height};
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Rect rect{line[i].x - width / 2, line[i].y - label_height / 2, width, label_height};
        if (!page.contains(rect) || !map.is_free(rect)) continue;
        const double middle = static_cast<double>(i) / static_cast<double>(line.size()) - 0.5;
        const double cost = static_cast<double>(map.covers(rect, own)) + 2 * std::abs(middle);
        if (best && cost >= least) continue;
        best = rect;
        least = cost;
    }
    return best;
}

}  // namespace

std::vector<std::optional<Rect>> place_labels(const Plan& plan, const Layout& layout) {
    Map map(layout.width, layout.height);
    constexpr double air = 2;
    for (const Rect& box : layout.boxes) map.take({box.x - air, box.y - air, box.width + 2 * air, box.height + 2 * air});
    std::vector<std::vector<Point>> lines;
    for (std::uint32_t a = 0; a < plan.arrows.size(); ++a) {
        lines.push_back(samples_of(layout.curves[a]));
        for (Point p : lines.back())
            map.samples[Map::place(p.y, map.rows) * map.columns + Map::place(p.x, map.columns)].push_back({p, a});
        const Point tip = layout.curves[a].tip, base = layout.curves[a].points.back();  // no label hides where an arrow ends
        map.take({std::min(tip.x, base.x) - 4, std::min(tip.y, base.y) - 4, std::abs(tip.x - base.x) + 8,
                  std::abs(tip.y - base.y) + 8});
    }
    std::vector<std::optional<Rect>> places(plan.arrows.size());
    for (bool cycles : {true, false}) {
        for (std::uint32_t a = 0; a < plan.arrows.size(); ++a) {
            const Arrow& arrow = plan.arrows[a];
            if (arrow.cycle != cycles || arrow.word.empty()) continue;
            places[a] = best_place(map, lines[a], width_of(arrow.word, label_size) + 2 * padding, a, layout);
            if (places[a]) map.take(*places[a]);
        }
    }
    return places;
}

}  // namespace ligament
