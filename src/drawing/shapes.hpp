// What do boxes, heads of arrows and badges look like?
#pragma once

#include <string>

#include "layout.hpp"
#include "plan.hpp"

namespace ligament {

/// A number for SVG: one decimal at most, whatever the locale.
std::string svg_number(double value);

/// Path data of a curve.
std::string path_of(const Curve& curve);

/// `<text>` with a fixed length, so that it fits with any font. `anchor` is start or middle of `x`.
std::string svg_text(Point at, std::string_view text, double size, std::string_view css_class, bool centred = false);

/// How large a box has to be.
struct Size {
    double width = 0, height = 0;
};
Size size_of(const Box& box);

/// Draws a box with its frame, name, word and badges, its hover title excepted.
std::string draw_box(const Box& box, const Rect& rect);

/// Draws the line and head of an arrow, its label and hover title excepted.
std::string draw_arrow(const Arrow& arrow, const Curve& curve);

}  // namespace ligament
