// How does a plan with its places become a picture?
#pragma once

#include <string>

#include "layout.hpp"
#include "plan.hpp"

namespace ligament {

/// What a layout needs to know of a plan.
LayoutTask task_of(const Plan& plan);

/// Everything of the picture that has a place, in its own px. `layout` is moved to where the page wants it.
struct Page {
    Layout layout;
    std::vector<Rect> titles;                 ///< of groups
    std::vector<std::optional<Rect>> labels;  ///< by arrow
    std::size_t labels_left_out = 0;
    Rect legend;
    std::string legend_svg;
    double width = 0, height = 0;
};

/// Puts header, drawing and legend onto a page and finds places for the labels.
Page compose(const Plan& plan, Layout layout);

/// The page as one SVG document: no script, nothing from outside, light and dark by the reader's preference.
std::string write_svg(const Plan& plan, const Page& page);

}  // namespace ligament
