// What stands where on a page? Shapes, lines and words with their places, as plain data, before they are written as SVG.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "layout.hpp"
#include "plan.hpp"

namespace ligament {

/// What an item stands for, so that a document around the drawing can hook onto it; written as data-about="bone:12".
struct About {
    enum class Kind : std::uint8_t { nothing, bone, group, property, cycle };
    Kind kind = Kind::nothing;
    std::uint32_t id = none;
};

enum class Align : std::uint8_t { start, middle, end };

/// How a text speaks. Colours are in style.hpp.
enum class Tone : std::uint8_t { ink, quiet, on_ink, alarm };

/// One line of words. `at` is on its baseline; the width is that of width_of(), whatever font there is.
struct Label {
    Point at = {};
    std::string words = {};  ///< drawable
    double size = 11;
    Align align = Align::start;
    Tone tone = Tone::ink;
    bool bold = false;
    bool plate = false;           ///< on a plate of paper, so that lines behind it do not cross it
    std::uint32_t inside = none;  ///< the node that it stands in
    std::string hover = {};
    About about = {};

    /// What it covers.
    Rect extent() const;
};

/// What lies behind everything: lanes, frames of groups, bars. May hold and overlap anything.
struct Backdrop {
    enum class Look : std::uint8_t { frame, lane, alarm_lane, bar, strong_bar, rule };
    Rect rect = {};
    Look look = Look::frame;
    double radius = 6;
    std::string hover = {};
    About about = {};
};

/// What became of a box between two revisions. Told by outline: heavy, dashed, or with a heavy left edge.
enum class Novelty : std::uint8_t { same, added, removed, changed };

/// A box that lines may join and none may run through. Drawn by its shape; `box.name` and `box.word` are written in it where they
/// are not empty, and further labels may stand `inside`.
struct Node {
    Rect rect = {};
    Box box = {};
    bool faint = false;  ///< there for context alone
    About about = {};
    Novelty novelty = Novelty::same;
};

/// A line from a node to a node, or to none. Heads are by kind.
struct Stroke {
    Curve curve = {};
    std::uint32_t from = none, to = none;  ///< indices into Scene::nodes; those that it may touch
    EdgeKind kind = EdgeKind::parent;
    bool inert = false, cycle = false, witness = false;
    bool faint = false;
    bool headless = false;
    std::string hover = {};
    About about = {};
};

/// A shape that is no box: a bone on the body, marks of a matrix, a sign on a line. `path` is SVG path data inside `extent`.
struct Mark {
    enum class Look : std::uint8_t {
        control,  ///< filled as the shape of that role is, with its line
        mechanism,
        deform,
        both,
        ink,        ///< filled with ink
        quiet,      ///< filled with the quiet colour
        alarm,      ///< filled with the alarm colour
        hatch,      ///< hatched in the alarm colour, outlined
        line,       ///< a thin quiet line, not filled
        alarm_line  ///< a strong alarm line, not filled
    };
    std::string path = {};
    Rect extent = {};
    Look look = Look::ink;
    std::string hover = {};
    About about = {};
    double dx = 0, dy = 0;  ///< how far it was moved since its path was written
};

/// Painted in this order: backdrops, marks, strokes (faint ones first, cycles last), nodes, labels, signs.
struct Scene {
    std::vector<Backdrop> backdrops;
    std::vector<Mark> marks;
    std::vector<Stroke> strokes;
    std::vector<Node> nodes;
    std::vector<Label> labels;
    std::vector<Mark> signs;  ///< above everything: cut marks, numbered discs
    double width = 0, height = 0;

    std::uint32_t add(Node node);  ///< the place of the node
    void add(Label label) { labels.push_back(std::move(label)); }
};

/// Moves everything.
void shift(Scene& scene, double dx, double dy);

/// Puts one scene into another, moved. The size of `to` stays.
void append(Scene& to, Scene from, double dx, double dy);

/// What a legend says of something that a view alone has: a scene of at most 56 x 30 px, and what it means.
struct LegendEntry {
    Scene sample;
    std::string text;
};

/// One page before it has a header, a legend and a paper.
struct Sheet {
    std::string name;                   ///< "group-03-wing_l", fit for a file
    std::string title;                  ///< drawable: what is shown of which rig
    std::vector<std::string> subtitle;  ///< drawable lines: counts, what is wrong, what was folded or stands on another page
    std::uint32_t subject = none;
    Scene scene;
    std::vector<LegendEntry> legend;  ///< beside what the nodes and strokes of the scene explain by themselves
    bool in_state = false;            ///< drawn in a state that was asked for
    std::string notice;               ///< for standard error
    bool cramped = false;             ///< larger paper would show more
};

/// Path data of a rounded polyline that turns at right angles or any others; a cubic Bezier per piece.
/// The last `head` px are left to the head. Points that repeat are left out.
Curve curve_along(const std::vector<Point>& corners, double radius, double head);

/// A rounded rectangle, a disc and a polygon as path data.
std::string disc_path(Point centre, double radius);
std::string rect_path(const Rect& rect);
std::string polygon_path(const std::vector<Point>& corners);

}  // namespace ligament
