// Where does everything go? A layout as a row of numbers and back.
#include "layout.hpp"

namespace ligament {

std::vector<double> flatten(const Layout& layout) {
    std::vector<double> values{layout.width, layout.height};
    auto add = [&](const Rect& r) { values.insert(values.end(), {r.x, r.y, r.width, r.height}); };
    for (const Rect& box : layout.boxes) add(box);
    for (const Rect& group : layout.groups) add(group);
    for (const Curve& curve : layout.curves) {
        values.push_back(static_cast<double>(curve.points.size()));
        for (Point p : curve.points) values.insert(values.end(), {p.x, p.y});
        values.insert(values.end(), {curve.tip.x, curve.tip.y});
    }
    return values;
}

std::optional<Layout> unflatten(const std::vector<double>& values, const LayoutTask& task) {
    std::size_t at = 0;
    bool short_of = false;
    auto next = [&] {
        if (at < values.size()) return values[at++];
        short_of = true;
        return 0.0;
    };
    auto next_point = [&] {
        Point p;
        p.x = next();
        p.y = next();
        return p;
    };
    auto next_rect = [&] {
        const Point corner = next_point(), size = next_point();
        return Rect{corner.x, corner.y, size.x, size.y};
    };
    Layout layout;
    layout.width = next();
    layout.height = next();
    for (std::size_t i = 0; i < task.nodes.size() && !short_of; ++i) layout.boxes.push_back(next_rect());
    for (std::size_t i = 0; i < task.groups && !short_of; ++i) layout.groups.push_back(next_rect());
    for (std::size_t i = 0; i < task.links.size() && !short_of; ++i) {
        Curve& curve = layout.curves.emplace_back();
        const double points = next();
        for (double n = 0; n < points && !short_of; ++n) curve.points.push_back(next_point());
        curve.tip = next_point();
    }
    if (short_of || at != values.size()) return std::nullopt;
    return layout;
}

}  // namespace ligament
