// How does a sheet become a page? Header, content, legend on a paper, and the paper as SVG.
#pragma once

#include <string>
#include <string_view>

#include "ligament/drawing.hpp"
#include "scene.hpp"
#include "views.hpp"

namespace ligament {

/// In CSS px (96 an inch) of the paper in landscape: A4 and A3 of ISO 216, letter of ANSI Y14.1.
struct PaperSize {
    double width_mm = 0, height_mm = 0;
};
PaperSize size_of(Paper paper);  ///< not of `automatic`

/// What a scene may take on it, room for three lines under the title and two rows of legend taken off.
Room room_on(Paper paper);

/// Text that is printed smaller is not read: the least size of any text on the paper, in pt.
inline constexpr double least_points = 7;

/// A sheet on a paper, in px of the paper.
struct Page {
    double width = 0, height = 0;  ///< px
    PaperSize paper;
    Scene header;           ///< in place
    Scene legend;           ///< in place, without its frame
    Rect legend_frame;      ///< empty where there is none
    double scale = 1;       ///< of the content
    Point origin;           ///< where the content's 0, 0 comes to stand
    double least_text = 0;  ///< the smallest text on the page in pt
};

/// Puts a sheet onto a paper. The content is made as large as the room allows, up to 1.5 times.
Page compose(const Sheet& sheet, Paper paper);

/// The page as one SVG document (or element, when embedded): no script, nothing from outside, light and dark by the reader's
/// preference.
std::string write_svg(const Sheet& sheet, const Page& page, bool embedded = false);

}  // namespace ligament
