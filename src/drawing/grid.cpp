// Where does everything go when nothing cleverer ends in time?
#include <algorithm>
#include <cmath>

#include "layout.hpp"

namespace ligament {

namespace {

constexpr double gap_x = 130, gap_y = 60, head_length = 9;

/// From the side of one box to the side of another, bent so that it leaves and enters level.
Curve bend(const Rect& from, const Rect& to, bool is_loop) {
    const bool forward = to.x >= from.right();
    const Point a{from.right(), from.centre().y};
    if (is_loop) {
        const Point tip{from.right() - 12, from.y};
        const Point end{tip.x, tip.y - head_length};
        return {{a, {a.x + 30, a.y}, {a.x + 30, end.y - 16}, end}, tip};
    }
    const Point tip{to.x, to.centre().y}, end{tip.x - head_length, tip.y};
    const double pull = forward ? std::max(20.0, (end.x - a.x) / 2) : 60;
    return {{a, {a.x + pull, a.y}, {end.x - pull, end.y}, end}, tip};
}

}  // namespace

Layout lay_out_grid(const LayoutTask& task) {
    Layout layout;
    const std::size_t columns =
        std::max<std::size_t>(1, static_cast<std::size_t>(std::lround(std::sqrt(static_cast<double>(task.nodes.size()) / 2))));
    std::vector<double> width(columns, 0);
    double height = 0;
    for (std::size_t i = 0; i < task.nodes.size(); ++i) {
        width[i % columns] = std::max(width[i % columns], task.nodes[i].width);
        height = std::max(height, task.nodes[i].height);
    }
    for (std::size_t i = 0; i < task.nodes.size(); ++i) {
        double x = gap_x;
        for (std::size_t c = 0; c < i % columns; ++c) x += width[c] + gap_x;
        const std::size_t row = i / columns;
        const double y = gap_y + static_cast<double>(row) * (height + gap_y);
        layout.boxes.push_back({x, y, task.nodes[i].width, task.nodes[i].height});
        layout.width = std::max(layout.width, x + task.nodes[i].width + gap_x);
        layout.height = std::max(layout.height, y + task.nodes[i].height + gap_y);
    }
    for (const LayoutTask::Link& link : task.links)
        layout.curves.push_back(bend(layout.boxes[link.from], layout.boxes[link.to], link.from == link.to));
    return layout;
}

}  // namespace ligament
