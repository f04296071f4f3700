// Which colours and lines does a drawing have? Hues of Okabe and Ito, "Color Universal Design" (2008; values from memory), which
// people of every colour vision tell apart: black, orange E69F00, sky blue 56B4E9, bluish green 009E73, yellow F0E442, blue
// 0072B2, vermillion D55E00, reddish purple CC79A7. Fills are tints of them, lines are darkened or lightened where WCAG 2.2 wants
// contrast. No meaning rests on colour alone: boxes differ in shape and word, lines in pattern, head and word.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "ligament/graph.hpp"
#include "plan.hpp"

namespace ligament {

struct BoxColours {
    std::string_view fill, line;
};

/// Colours as "#rrggbb".
struct Scheme {
    std::string_view paper, ink, quiet;  ///< ground, text, lesser text
    std::string_view group_fill, group_line;
    std::string_view alarm;                     ///< cycles and unattached bones
    std::array<BoxColours, shape_count> boxes;  ///< by Shape
    std::array<std::string_view, 6> lines;      ///< by EdgeKind
};

inline constexpr Scheme light_scheme{"#ffffff",
                                     "#14171a",
                                     "#454b52",
                                     "#f3f5f7",
                                     "#868d96",
                                     "#b84a00",
                                     {{{"#fbe5b8", "#7a5200"},
                                       {"#ffffff", "#3a3f45"},
                                       {"#cfeafb", "#005585"},
                                       {"#faf5bf", "#5f5800"},
                                       {"#f3deea", "#8a3f6a"},
                                       {"#e3e6e9", "#3a3f45"},
                                       {"#c9ecdf", "#00614a"},
                                       {"#eef0f2", "#3a3f45"},
                                       {"#ffffff", "#3a3f45"}}},
                                     {"#5b626a", "#0072b2", "#a0487a", "#00785a", "#8a5f00", "#5b626a"}};

inline constexpr Scheme dark_scheme{"#14171a",
                                    "#f0f2f4",
                                    "#bcc3ca",
                                    "#1d2126",
                                    "#707983",
                                    "#f0813a",
                                    {{{"#4a370d", "#e69f00"},
                                      {"#14171a", "#c3c9cf"},
                                      {"#113a53", "#56b4e9"},
                                      {"#444111", "#f0e442"},
                                      {"#48293b", "#cc79a7"},
                                      {"#343a41", "#c3c9cf"},
                                      {"#0c4234", "#1fb88a"},
                                      {"#2a2f35", "#c3c9cf"},
                                      {"#14171a", "#c3c9cf"}}},
                                    {"#a9b1b9", "#56b4e9", "#d78ab5", "#1fb88a", "#e69f00", "#a9b1b9"}};

struct LineStyle {
    double width;
    std::string_view dashes;  ///< stroke-dasharray; empty = unbroken
    std::string_view name;    ///< in the legend
};

/// By EdgeKind.
inline constexpr std::array<LineStyle, 6> line_styles{{{1.1, "", "parent link, or followed by an object"},
                                                       {2.0, "", "constraint"},
                                                       {1.6, "7 4", "driver"},
                                                       {1.8, "11 3 2 3", "solver"},
                                                       {1.9, "2 4", "curve handle"},
                                                       {1.4, "1 6", "order"}}};

/// CSS classes by Shape and by EdgeKind.
inline constexpr std::array<std::string_view, shape_count> shape_classes{"ctl", "mech", "def", "cdf", "prp",
                                                                         "obj", "slv",  "bnd", "grp"};
inline constexpr std::array<std::string_view, 6> line_classes{"parent", "constraint", "driver", "solver", "curve", "order"};

/// By Shape, in the legend.
inline constexpr std::array<std::string_view, shape_count> shape_names{
    "control bone",  "mechanism bone", "deform bone", "control + deform bone",
    "property",      "object",         "solver",      "several bones of a group, named in the hover title",
    "group of bones"};

inline constexpr double name_size = 11, word_size = 9.5;  ///< font sizes in a box
inline constexpr double least_size = 9.5;                 ///< of any text, where a page is drawn at its natural size
inline constexpr double name_width_limit = 160;           ///< names wider than this are cut in the middle
inline constexpr double box_height = 34;
inline constexpr double alarm_frame = 6;  ///< what a hatched frame adds on each side

/// Of all drawings: text, outlines, lines and their patterns, the two schemes. Rules reach into elements of class "lg" only.
std::string style_sheet();

/// What pages of changes have beside it.
std::string change_style_sheet();

/// The patterns that drawings refer to, as one `defs` element.
std::string style_definitions();

}  // namespace ligament
