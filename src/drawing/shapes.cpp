// What do boxes, heads of arrows and badges look like?
#include "shapes.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "style.hpp"
#include "text.hpp"

namespace ligament {

std::string svg_number(double value) {
    char buffer[64];
    const double rounded = std::round(value * 10) / 10;
    std::string text(buffer, std::to_chars(buffer, buffer + sizeof buffer, rounded, std::chars_format::fixed, 1).ptr);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text == "-0" ? "0" : text;
}

namespace {

std::string pair(Point p) { return svg_number(p.x) + " " + svg_number(p.y); }

constexpr double corner = 8, slant = 9, dent = 9, padding = 11, badge_gap = 6, badge_height = 13, behind = 6;
constexpr double widest_round = 20;  // of a capsule that holds several lines

bool is_alarming(const Box& box) { return box.has(Badge::Kind::unattached); }
bool has_frame(const Box& box) { return is_alarming(box) || box.has(Badge::Kind::carried); }

double side_padding(Shape shape) {
    switch (shape) {
        case Shape::property:
            return padding + 5;
        case Shape::object:
            return padding + slant;
        case Shape::solver:
            return padding + dent;
        default:
            return padding;
    }
}

double badge_width(const Badge& badge) { return width_of(badge.word, word_size) + 10; }

double second_line_width(const Box& box) {
    double width = width_of(box.word, word_size);
    for (const Badge& badge : box.badges)
        if (!badge.word.empty()) width += badge_gap + badge_width(badge);
    return width;
}

std::string polygon(std::initializer_list<Point> points) {
    std::string data;
    for (Point p : points) data += (data.empty() ? "M" : "L") + pair(p);
    return data + "Z";
}

std::string round_rect(const Rect& r, double radius) {
    return "<rect x=\"" + svg_number(r.x) + "\" y=\"" + svg_number(r.y) + "\" width=\"" + svg_number(r.width) + "\" height=\"" +
           svg_number(r.height) + "\" rx=\"" + svg_number(radius) + "\"";
}

/// The outline of a shape, as an unclosed element.
std::string outline(Shape shape, const Rect& r) {
    const double x = r.x, y = r.y, right = r.right(), bottom = r.bottom(), middle = r.centre().y, c = corner;
    auto path = [](const std::string& data) { return "<path d=\"" + data + "\""; };
    switch (shape) {
        case Shape::control:
        case Shape::control_deform:
            return path(polygon({{x + c, y},
                                 {right - c, y},
                                 {right, y + c},
                                 {right, bottom - c},
                                 {right - c, bottom},
                                 {x + c, bottom},
                                 {x, bottom - c},
                                 {x, y + c}}));
        case Shape::property:
            return round_rect(r, std::min(r.height / 2, widest_round));
        case Shape::object:
            return path(polygon({{x + slant, y}, {right, y}, {right - slant, bottom}, {x, bottom}}));
        case Shape::solver:
            return path(
                polygon({{x, y}, {right - dent, y}, {right, middle}, {right - dent, bottom}, {x, bottom}, {x + dent, middle}}));
        case Shape::group:
            return round_rect(r, 6);
        default:
            return round_rect(r, 0);
    }
}

/// The second lower edge of what deforms the skin, and the second frame of a group.
std::string second_line(Shape shape, const Rect& r) {
    constexpr double apart = 3.5;
    if (shape == Shape::bundle) {  // the edges of more that lie behind
        std::string data;
        for (double d : {3.0, 6.0})
            data += "M" + pair({r.x + d, r.y - d + 3}) + "V" + svg_number(r.y - d) + "H" + svg_number(r.right() + d) + "V" +
                    svg_number(r.bottom() - d) + "H" + svg_number(r.right() + d - 3);
        return "<path class=\"o\" d=\"" + data + "\"/>";
    }
    if (shape == Shape::group)
        return round_rect({r.x + apart, r.y + apart, r.width - 2 * apart, r.height - 2 * apart}, 3) +
               " class=\"o\" fill=\"none\"/>";
    if (shape != Shape::deform && shape != Shape::control_deform) return {};
    const double inset = shape == Shape::deform ? 0 : corner - apart;
    return "<path class=\"o\" d=\"M" + pair({r.x + inset, r.bottom() - apart}) + "L" +
           pair({r.right() - inset, r.bottom() - apart}) + "\"/>";
}

std::string draw_badge(const Badge& badge, Point corner_at) {
    const Rect r{corner_at.x, corner_at.y, badge_width(badge), badge_height};
    const bool loud = badge.kind != Badge::Kind::carried;
    return round_rect(r, 3) + " class=\"" + (loud ? "bl" : "bq") + "\"/>" +
           draw_label({.at = {r.centre().x, r.y + 9.8},
                       .words = badge.word,
                       .size = word_size,
                       .align = Align::middle,
                       .tone = loud ? Tone::on_ink : Tone::quiet,
                       .bold = loud});
}

/// The head of an arrow from its tip and the middle of its base, `wide` times as wide as usual.
std::string draw_head(EdgeKind kind, Point base, Point tip, double wide) {
    const double length = std::hypot(tip.x - base.x, tip.y - base.y);
    const Point along = length > 0.5 ? Point{(tip.x - base.x) / length, (tip.y - base.y) / length} : Point{1, 0};
    const double head = std::clamp(length, 6.0, 9.0);
    auto at = [&](double back, double aside) {
        return Point{tip.x - along.x * back - along.y * aside * wide, tip.y - along.y * back + along.x * aside * wide};
    };
    auto shape = [](std::string_view css_class, const std::string& data) {
        return "<path class=\"" + std::string(css_class) + "\" d=\"" + data + "\"/>";
    };
    switch (kind) {
        case EdgeKind::parent:
            return shape("hl", "M" + pair(at(head, 3.5)) + "L" + pair(tip) + "L" + pair(at(head, -3.5)) + "M" +
                                   pair(at(head, 0)) + "L" + pair(tip));
        case EdgeKind::constraint:
            return shape("hf", polygon({at(head, 4), tip, at(head, -4)}));
        case EdgeKind::driver:
            return shape("he", polygon({at(head, 0), at(head / 2, 3.6), tip, at(head / 2, -3.6)}));
        case EdgeKind::solver:
            return shape("he", polygon({at(head, 4), tip, at(head, -4)}));
        case EdgeKind::curve: {
            const Point c = at(head / 2, 0);
            return "<circle class=\"hf\" cx=\"" + svg_number(c.x) + "\" cy=\"" + svg_number(c.y) + "\" r=\"" +
                   svg_number(head / 2 - 0.4) + "\"/>";
        }
        case EdgeKind::order:
            return shape("hl", "M" + pair(at(1, 4)) + "L" + pair(at(1, -4)) + "M" + pair(at(head, 0)) + "L" + pair(tip));
    }
    return {};
}

std::string title_of(const std::string& hover) { return hover.empty() ? "" : "<title>" + escaped(hover) + "</title>"; }

std::string about_attribute(const About& about) {
    static constexpr std::array<std::string_view, 5> kinds{"", "bone", "group", "property", "cycle"};
    if (about.kind == About::Kind::nothing) return {};
    return " data-about=\"" + std::string(kinds[static_cast<std::size_t>(about.kind)]) + ":" + std::to_string(about.id) + "\"";
}

/// What a screen reader says of a box (WAI-ARIA Graphics Module 1.0).
std::string spoken(const Box& box) {
    if (box.name.empty()) return {};
    std::string words = box.name;
    if (!box.word.empty()) words += ", " + box.word;
    for (const Badge& badge : box.badges)
        if (!badge.word.empty()) words += ", " + badge.word;
    return " role=\"graphics-symbol\" aria-label=\"" + escaped(words) + "\"";
}

std::string draw_words(const Box& box, const Rect& r, bool faint) {
    const double middle = r.centre().x, lift = box.shape == Shape::deform || box.shape == Shape::control_deform ? 1.5 : 0;
    std::string out;
    if (!box.name.empty())
        out += draw_label({.at = {middle, r.y + 14 - lift},
                           .words = cut_in_middle(box.name, name_size, name_width_limit),
                           .size = name_size,
                           .align = Align::middle,
                           .tone = faint ? Tone::quiet : Tone::ink});
    double x = middle - second_line_width(box) / 2;
    if (!box.word.empty())
        out += draw_label({.at = {x, r.y + 26.5 - lift}, .words = box.word, .size = word_size, .tone = Tone::quiet});
    x += width_of(box.word, word_size);
    for (const Badge& badge : box.badges) {
        if (badge.word.empty()) continue;  // in the legend
        out += draw_badge(badge, {x + badge_gap, r.y + 17 - lift});
        x += badge_gap + badge_width(badge);
    }
    return out;
}

/// A hatched strip at the left of a lane that is not to be overlooked.
std::string hatched_edge(const Rect& lane) {
    return round_rect({lane.x + 3, lane.y + 3, 10, std::max(0.0, lane.height - 6)}, 2) + " fill=\"url(#ligament-hatch)\"/>";
}

}  // namespace

std::string path_of(const Curve& curve) {
    std::string data = "M" + pair(curve.points.front()) + "C";
    for (std::size_t i = 1; i < curve.points.size(); ++i) data += (i > 1 ? " " : "") + pair(curve.points[i]);
    return data;
}

std::string draw_label(const Label& label) {
    static constexpr std::array<std::string_view, 4> tones{"t-ink", "t-quiet", "t-on", "t-alarm"};
    static constexpr std::array<std::string_view, 3> aligns{"", " m", " e"};
    std::string out;
    const bool grouped = label.plate || !label.hover.empty() || label.about.kind != About::Kind::nothing;
    if (grouped) out += "<g" + about_attribute(label.about) + ">" + title_of(label.hover);
    if (label.plate) {
        const Rect r = label.extent();
        out += round_rect({r.x - 2, r.y - 1, r.width + 4, r.height + 2}, 3) + " class=\"lab\"/>";
    }
    out += "<text class=\"" + std::string(tones[static_cast<std::size_t>(label.tone)]) +
           std::string(aligns[static_cast<std::size_t>(label.align)]) + (label.bold ? " bold" : "") + "\" x=\"" +
           svg_number(label.at.x) + "\" y=\"" + svg_number(label.at.y) + "\" font-size=\"" + svg_number(label.size) +
           "\" textLength=\"" + svg_number(width_of(label.words, label.size)) + "\" lengthAdjust=\"spacingAndGlyphs\">" +
           escaped(label.words) + "</text>";
    return out + (grouped ? "</g>\n" : "");
}

Size size_of(const Box& box) {
    const std::string shown = cut_in_middle(box.name, name_size, name_width_limit);
    const double text = std::max(width_of(shown, name_size), second_line_width(box));
    const double frame = has_frame(box) ? 2 * alarm_frame : box.shape == Shape::bundle ? behind : 0;
    return {std::max(64.0, std::ceil(text + 2 * side_padding(box.shape))) + frame, box_height + frame};
}

namespace {

/// The heavy left edge of what changed, from corner to corner.
std::string changed_edge(const Node& node, const Rect& r) {
    if (node.novelty != Novelty::changed) return {};
    const bool is_round = node.box.shape == Shape::property, is_slanted = node.box.shape == Shape::object;
    const bool is_cut = node.box.shape == Shape::control || node.box.shape == Shape::control_deform;
    const double inset = is_round ? std::min(r.height / 2 - 3, widest_round) : is_cut ? corner : 0;
    return "<path class=\"edge\" d=\"M" + pair({r.x + (is_slanted ? slant : 0), r.y + inset}) + "L" +
           pair({r.x, r.bottom() - inset}) + "\"/>";
}

}  // namespace

double outline_inset(Shape shape, const Rect& r, double y, bool on_right) {
    const double down = r.height > 0 ? std::clamp((y - r.y) / r.height, 0.0, 1.0) : 0.5;
    const double to_corner = std::min(y - r.y, r.bottom() - y);
    switch (shape) {
        case Shape::object:
            return slant * (on_right ? down : 1 - down);
        case Shape::solver:
            return dent * (on_right ? std::abs(2 * down - 1) : 1 - std::abs(2 * down - 1));
        case Shape::control:
        case Shape::control_deform:
            return std::clamp(corner - to_corner, 0.0, corner);
        case Shape::property: {
            const double round = std::min(r.height / 2, widest_round), up = std::clamp(round - to_corner, 0.0, round);
            return round - std::sqrt(round * round - up * up);
        }
        default:
            return 0;
    }
}

std::string draw_node(const Node& node) {
    static constexpr std::array<std::string_view, 4> novelties{"", " added", " removed", " changed"};
    const Box& box = node.box;
    Rect r = node.rect;
    std::string out = "<g class=\"b " + std::string(shape_classes[static_cast<std::size_t>(box.shape)]) +
                      (node.faint ? " faint" : "") + (box.has(Badge::Kind::cycle) ? " cyc" : "") +
                      std::string(novelties[static_cast<std::size_t>(node.novelty)]) + "\"" + about_attribute(node.about) +
                      spoken(box) + ">" + title_of(box.hover);
    if (has_frame(box)) {
        const Rect frame{r.x + 1, r.y + 1, r.width - 2, r.height - 2};
        out += round_rect(frame, 2) + (is_alarming(box) ? " class=\"loose\"/>" : " class=\"ride\"/>");
        if (is_alarming(box)) out += round_rect(frame, 2) + " fill=\"url(#ligament-hatch)\"/>";
        r = {r.x + alarm_frame, r.y + alarm_frame, r.width - 2 * alarm_frame, r.height - 2 * alarm_frame};
    }
    if (box.shape == Shape::bundle) r = {r.x, r.y + behind, r.width - behind, r.height - behind};
    if (box.has(Badge::Kind::cycle)) out += outline(box.shape, r) + " class=\"ring\"/>";
    out += outline(box.shape, r) + " class=\"f\"/>" + second_line(box.shape, r) + changed_edge(node, r) +
           draw_words(box, r, node.faint);
    return out + "</g>\n";
}

std::string draw_stroke(const Stroke& stroke) {
    const std::string data = path_of(stroke.curve);
    std::string out = "<g class=\"a " + std::string(line_classes[static_cast<std::size_t>(stroke.kind)]);
    out += stroke.cycle ? stroke.witness ? " cyc wit" : " cyc" : stroke.inert ? " off" : stroke.faint ? " faint" : "";
    out += "\"" + about_attribute(stroke.about) + ">" + title_of(stroke.hover);
    if (!stroke.hover.empty()) out += "<path class=\"hit\" d=\"" + data + "\"/>";
    out += "<path class=\"l\" d=\"" + data + "\"/>";
    if (stroke.cycle) out += "<path class=\"core\" d=\"" + data + "\"/>";
    if (!stroke.headless)
        out += draw_head(stroke.kind, stroke.curve.points.back(), stroke.curve.tip,
                         stroke.witness ? 1.9
                         : stroke.cycle ? 1.5
                                        : 1);
    return out + "</g>\n";
}

std::string draw_mark(const Mark& mark) {
    static constexpr std::array<std::string_view, 10> looks{"k-control", "k-mechanism", "k-deform", "k-both", "k-ink",
                                                            "k-quiet",   "k-alarm",     "k-hatch",  "k-line", "k-alarm-line"};
    const bool moved = mark.dx != 0 || mark.dy != 0;
    const std::string place =
        moved ? " transform=\"translate(" + svg_number(mark.dx) + " " + svg_number(mark.dy) + ")\"" : std::string();
    const std::string path =
        "<path class=\"" + std::string(looks[static_cast<std::size_t>(mark.look)]) + "\"" + place + " d=\"" + mark.path + "\"/>";
    if (mark.hover.empty() && mark.about.kind == About::Kind::nothing) return path + "\n";
    return "<g" + about_attribute(mark.about) + ">" + title_of(mark.hover) + path + "</g>\n";
}

std::string draw_backdrop(const Backdrop& backdrop) {
    static constexpr std::array<std::string_view, 6> looks{"frame", "lane", "alarm-lane", "bar", "strong-bar", "rule"};
    const std::string rect = round_rect(backdrop.rect, backdrop.radius) + " class=\"" +
                             std::string(looks[static_cast<std::size_t>(backdrop.look)]) + "\"/>";
    const std::string hatch = backdrop.look == Backdrop::Look::alarm_lane ? hatched_edge(backdrop.rect) : std::string();
    if (backdrop.hover.empty() && backdrop.about.kind == About::Kind::nothing) return rect + hatch + "\n";
    return "<g" + about_attribute(backdrop.about) + ">" + title_of(backdrop.hover) + rect + hatch + "</g>\n";
}

}  // namespace ligament
