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

constexpr double corner = 8, slant = 9, dent = 9, padding = 11, badge_gap = 6, badge_height = 14, behind = 6;

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
            return round_rect(r, r.height / 2);
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

constexpr std::array<std::string_view, shape_count> shape_classes{"ctl", "mech", "def", "cdf", "prp", "obj", "slv", "bnd", "grp"};
constexpr std::array<std::string_view, 6> line_classes{"parent", "constraint", "driver", "solver", "curve", "order"};

std::string draw_badge(const Badge& badge, Point corner_at) {
    const Rect r{corner_at.x, corner_at.y, badge_width(badge), badge_height};
    const bool loud = badge.kind != Badge::Kind::carried;
    return round_rect(r, 3) + " class=\"" + (loud ? "bl" : "bq") + "\"/>" +
           svg_text({r.centre().x, r.y + 10.6}, badge.word, word_size, loud ? "tb" : "tw", true);
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

}  // namespace

std::string path_of(const Curve& curve) {
    std::string data = "M" + pair(curve.points.front()) + "C";
    for (std::size_t i = 1; i < curve.points.size(); ++i) data += (i > 1 ? " " : "") + pair(curve.points[i]);
    return data;
}

std::string svg_text(Point at, std::string_view text, double size, std::string_view css_class, bool centred) {
    return "<text class=\"" + std::string(css_class) + (centred ? " m" : "") + "\" x=\"" + svg_number(at.x) + "\" y=\"" +
           svg_number(at.y) + "\" textLength=\"" + svg_number(width_of(text, size)) + "\" lengthAdjust=\"spacingAndGlyphs\">" +
           escaped(text) + "</text>";
}

Size size_of(const Box& box) {
    const std::string shown = cut_in_middle(box.name, name_size, name_width_limit);
    const double text = std::max(width_of(shown, name_size), second_line_width(box));
    const double frame = has_frame(box) ? 2 * alarm_frame : box.shape == Shape::bundle ? behind : 0;
    return {std::max(64.0, std::ceil(text + 2 * side_padding(box.shape))) + frame, box_height + frame};
}

std::string draw_box(const Box& box, const Rect& rect) {
    Rect r = rect;
    std::string out = "<g class=\"b " + std::string(shape_classes[static_cast<std::size_t>(box.shape)]) +
                      (box.has(Badge::Kind::cycle) ? " cyc" : "") + "\">";
    if (!box.hover.empty()) out += "<title>" + escaped(box.hover) + "</title>";
    if (has_frame(box)) {
        const Rect frame{r.x + 1, r.y + 1, r.width - 2, r.height - 2};
        out += round_rect(frame, 2) + (is_alarming(box) ? " class=\"loose\"/>" : " class=\"ride\"/>");
        if (is_alarming(box)) out += round_rect(frame, 2) + " fill=\"url(#ligament-hatch)\"/>";
        r = {r.x + alarm_frame, r.y + alarm_frame, r.width - 2 * alarm_frame, r.height - 2 * alarm_frame};
    }
    if (box.shape == Shape::bundle) r = {r.x, r.y + behind, r.width - behind, r.height - behind};
    if (box.has(Badge::Kind::cycle)) out += outline(box.shape, r) + " class=\"ring\"/>";
    out += outline(box.shape, r) + " class=\"f\"/>" + second_line(box.shape, r);
    const double middle = r.centre().x, lift = box.shape == Shape::deform || box.shape == Shape::control_deform ? 1.5 : 0;
    if (!box.name.empty())
        out += svg_text({middle, r.y + 16 - lift}, cut_in_middle(box.name, name_size, name_width_limit), name_size, "tn", true);
    double x = middle - second_line_width(box) / 2;
    if (!box.word.empty()) out += svg_text({x, r.y + 29.5 - lift}, box.word, word_size, "tw");
    x += width_of(box.word, word_size);
    for (const Badge& badge : box.badges) {
        if (badge.word.empty()) continue;  // in the legend
        out += draw_badge(badge, {x + badge_gap, r.y + 19 - lift});
        x += badge_gap + badge_width(badge);
    }
    return out + "</g>\n";
}

std::string draw_arrow(const Arrow& arrow, const Curve& curve) {
    const std::string data = path_of(curve);
    std::string out = "<g class=\"a " + std::string(line_classes[static_cast<std::size_t>(arrow.kind)]);
    out += arrow.cycle ? arrow.witness ? " cyc wit" : " cyc" : arrow.inert ? " off" : "";
    out += "\">";
    if (!arrow.hover.empty()) out += "<title>" + escaped(arrow.hover) + "</title>";
    out += "<path class=\"hit\" d=\"" + data + "\"/><path class=\"l\" d=\"" + data + "\"/>";
    if (arrow.cycle) out += "<path class=\"core\" d=\"" + data + "\"/>";
    return out + draw_head(arrow.kind, curve.points.back(), curve.tip, arrow.witness ? 1.9 : arrow.cycle ? 1.5 : 1) + "</g>\n";
}

}  // namespace ligament
