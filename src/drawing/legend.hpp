// What do the shapes and lines of this picture mean?
#pragma once

#include <string>

#include "layout.hpp"
#include "plan.hpp"
#include "shapes.hpp"

namespace ligament {

struct Legend {
    std::string svg;  ///< at 0, 0
    Size size;
};

/// Explains what occurs in the plan and nothing else, in rows no wider than `width` where an entry allows it.
Legend draw_legend(const Plan& plan, std::size_t labels_left_out, double width);

}  // namespace ligament
