// What stands where on a page?
#include "scene.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "shapes.hpp"
#include "text.hpp"

namespace ligament {

namespace {

constexpr double ascent = 0.8, descent = 0.25;  // of the font size, for the usual monospaced fonts

std::string pair(Point p) { return svg_number(p.x) + " " + svg_number(p.y); }

Point towards(Point from, Point to, double distance) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (length < 1e-9) return from;
    return {from.x + (to.x - from.x) * distance / length, from.y + (to.y - from.y) * distance / length};
}

void add_straight(std::vector<Point>& points, Point to) {
    const Point from = points.back();
    points.push_back({from.x + (to.x - from.x) / 3, from.y + (to.y - from.y) / 3});
    points.push_back({from.x + (to.x - from.x) * 2 / 3, from.y + (to.y - from.y) * 2 / 3});
    points.push_back(to);
}

}  // namespace

Rect Label::extent() const {
    const double width = width_of(words, size);
    const double left = align == Align::start ? at.x : align == Align::middle ? at.x - width / 2 : at.x - width;
    return {left, at.y - ascent * size, width, (ascent + descent) * size};
}

std::uint32_t Scene::add(Node node) {
    nodes.push_back(std::move(node));
    return static_cast<std::uint32_t>(nodes.size() - 1);
}

void shift(Scene& scene, double dx, double dy) {
    auto move = [&](auto& p) { p.x += dx, p.y += dy; };
    for (Backdrop& backdrop : scene.backdrops) move(backdrop.rect);
    for (Node& node : scene.nodes) move(node.rect);
    for (Label& label : scene.labels) move(label.at);
    for (Stroke& stroke : scene.strokes) {
        for (Point& p : stroke.curve.points) move(p);
        move(stroke.curve.tip);
    }
    for (auto* marks : {&scene.marks, &scene.signs})
        for (Mark& mark : *marks) {
            move(mark.extent);
            mark.dx += dx, mark.dy += dy;
        }
}

void append(Scene& to, Scene from, double dx, double dy) {
    shift(from, dx, dy);
    const auto first = static_cast<std::uint32_t>(to.nodes.size());
    auto renumber = [&](std::uint32_t& node) {
        if (node != none) node += first;
    };
    for (Stroke& stroke : from.strokes) renumber(stroke.from), renumber(stroke.to);
    for (Label& label : from.labels) renumber(label.inside);
    auto move_all = [](auto& all, auto& more) {
        all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
    };
    move_all(to.backdrops, from.backdrops);
    move_all(to.marks, from.marks);
    move_all(to.strokes, from.strokes);
    move_all(to.nodes, from.nodes);
    move_all(to.labels, from.labels);
    move_all(to.signs, from.signs);
}

Curve curve_along(const std::vector<Point>& corners, double radius, double head) {
    std::vector<Point> at;
    for (Point p : corners)
        if (at.empty() || std::hypot(p.x - at.back().x, p.y - at.back().y) > 0.05) at.push_back(p);
    if (at.empty()) at.push_back({});
    if (at.size() == 1) return {{at[0], at[0], at[0], at[0]}, at[0]};
    const Point tip = at.back();
    const Point before = at[at.size() - 2];
    at.back() = towards(tip, before, std::min(head, std::hypot(tip.x - before.x, tip.y - before.y) * 0.9));
    Curve curve{{at.front()}, tip};
    for (std::size_t i = 1; i + 1 < at.size(); ++i) {
        const double in = std::hypot(at[i].x - at[i - 1].x, at[i].y - at[i - 1].y);
        const double out = std::hypot(at[i + 1].x - at[i].x, at[i + 1].y - at[i].y);
        const double cut = std::min({radius, in / 2, out / 2});
        const Point enter = towards(at[i], at[i - 1], cut), leave = towards(at[i], at[i + 1], cut);
        add_straight(curve.points, enter);
        const double pull = cut * 0.45;  // a quarter circle to the eye
        curve.points.push_back(towards(at[i], at[i - 1], pull));
        curve.points.push_back(towards(at[i], at[i + 1], pull));
        curve.points.push_back(leave);
    }
    add_straight(curve.points, at.back());
    return curve;
}

std::string disc_path(Point c, double radius) {
    const std::string r = svg_number(radius), arc = "A" + r + " " + r + " 0 1 1 ";
    return "M" + pair({c.x - radius, c.y}) + arc + pair({c.x + radius, c.y}) + arc + pair({c.x - radius, c.y}) + "Z";
}

std::string rect_path(const Rect& r) {
    return "M" + pair({r.x, r.y}) + "H" + svg_number(r.right()) + "V" + svg_number(r.bottom()) + "H" + svg_number(r.x) + "Z";
}

std::string polygon_path(const std::vector<Point>& corners) {
    std::string data;
    for (Point p : corners) data += (data.empty() ? "M" : "L") + pair(p);
    return data + "Z";
}

}  // namespace ligament
