// What do boxes, heads of arrows and badges look like?
#pragma once

#include <string>

#include "layout.hpp"
#include "plan.hpp"
#include "scene.hpp"

namespace ligament {

/// A number for SVG: one decimal at most, whatever the locale.
std::string svg_number(double value);

/// Path data of a curve.
std::string path_of(const Curve& curve);

/// How large a box has to be.
struct Size {
    double width = 0, height = 0;
};
Size size_of(const Box& box);

/// How far inside its rectangle the left or right outline of a shape lies at a height.
double outline_inset(Shape shape, const Rect& rect, double y, bool on_right);

/// `<text>` with a fixed length, so that it fits with any font.
std::string draw_label(const Label& label);

/// Frame, name, word and badges of a node, with its hover title.
std::string draw_node(const Node& node);

/// The line and head of a stroke, with its hover title.
std::string draw_stroke(const Stroke& stroke);

std::string draw_mark(const Mark& mark);
std::string draw_backdrop(const Backdrop& backdrop);

}  // namespace ligament
