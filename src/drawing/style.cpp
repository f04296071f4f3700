// Which colours and lines does a drawing have?
#include "style.hpp"

#include "shapes.hpp"

namespace ligament {

namespace {

constexpr std::string_view scope = "svg.lg ";

/// One rule; each selector of the list is kept to drawings.
std::string rule(std::string_view selectors, std::string_view body) {
    std::string out;
    while (!selectors.empty()) {
        const std::size_t comma = selectors.find(',');
        out += (out.empty() ? "" : ",") + std::string(scope) + std::string(selectors.substr(0, comma));
        selectors = comma == std::string_view::npos ? std::string_view{} : selectors.substr(comma + 1);
    }
    return out + "{" + std::string(body) + "}\n";
}

std::string fill(std::string_view colour) { return "fill:" + std::string(colour); }
std::string stroke(std::string_view colour) { return "stroke:" + std::string(colour); }

std::string box_rules(const Scheme& s) {
    std::string css;
    for (std::size_t i = 0; i < shape_count; ++i) {
        const std::string name(shape_classes[i]);
        css += rule("." + name + " .f", fill(s.boxes[i].fill) + ";" + stroke(s.boxes[i].line)) +
               rule("." + name + " .o", stroke(s.boxes[i].line));
    }
    return css + rule(".faint .f", fill(s.paper) + ";" + stroke(s.group_line)) + rule(".faint .o", stroke(s.group_line));
}

std::string line_rules(const Scheme& s) {
    std::string css;
    for (std::size_t i = 0; i < line_classes.size(); ++i) {
        const std::string name(line_classes[i]), colour(s.lines[i]);
        css += rule("." + name + " .l,." + name + " .hl", "stroke:" + colour) + rule("." + name + " .hf", "fill:" + colour) +
               rule("." + name + " .he", fill(s.paper) + ";stroke:" + colour);
    }
    return css + rule(".faint .l,.faint .hl", stroke(s.group_line)) + rule(".faint .hf", fill(s.group_line)) +
           rule(".faint .he", stroke(s.group_line)) + rule(".cyc .l,.cyc .hl", stroke(s.alarm)) +
           rule(".cyc .hf,.cyc .he", fill(s.alarm) + ";" + stroke(s.alarm));
}

std::string mark_rules(const Scheme& s) {
    auto as_box = [&](std::string_view name, Shape shape) {
        const BoxColours& c = s.boxes[static_cast<std::size_t>(shape)];
        return rule(name, fill(c.fill) + ";" + stroke(c.line));
    };
    return as_box(".k-control", Shape::control) + as_box(".k-mechanism", Shape::mechanism) + as_box(".k-deform", Shape::deform) +
           as_box(".k-both", Shape::control_deform) + rule(".k-ink", fill(s.ink)) + rule(".k-quiet", fill(s.quiet)) +
           rule(".k-alarm", fill(s.alarm)) + rule(".k-hatch", stroke(s.alarm)) + rule(".k-line", stroke(s.quiet)) +
           rule(".k-alarm-line", stroke(s.alarm));
}

std::string scheme_rules(const Scheme& s) {
    return rule(".paper,.lab", fill(s.paper)) + rule(".t-ink", fill(s.ink)) + rule(".t-quiet", fill(s.quiet)) +
           rule(".t-on", fill(s.paper)) + rule(".t-alarm", fill(s.alarm)) + rule(".bl", fill(s.ink)) +
           rule(".bq", fill(s.paper) + ";" + stroke(s.quiet)) + rule(".frame", fill(s.group_fill) + ";" + stroke(s.group_line)) +
           rule(".lane", fill(s.group_fill)) + rule(".alarm-lane", fill(s.paper) + ";" + stroke(s.alarm)) +
           rule(".bar", fill(s.group_line)) + rule(".strong-bar", fill(s.ink)) + rule(".rule", fill(s.group_line)) +
           rule(".key", fill(s.paper) + ";" + stroke(s.group_line)) + rule(".core", stroke(s.paper)) +
           rule(".ring", stroke(s.alarm)) + rule(".loose", fill(s.paper) + ";" + stroke(s.alarm)) +
           rule(".ride", fill(s.paper) + ";" + stroke(s.quiet)) + rule(".hatch", stroke(s.alarm)) + box_rules(s) + line_rules(s) +
           mark_rules(s);
}

/// What does not depend on the scheme.
std::string form_rules() {
    std::string css =
        rule("text", "font-family:ui-monospace,monospace;unicode-bidi:isolate;white-space:pre") +
        rule(".bold", "font-weight:bold") + rule(".m", "text-anchor:middle") + rule(".e", "text-anchor:end") +
        rule(".f", "stroke-width:1.3") + rule(".mech .f", "stroke-width:1") + rule(".o", "fill:none;stroke-width:1.3") +
        rule(".def .f,.cdf .f,.grp .f", "stroke-width:1.5") + rule(".faint .f,.faint .o", "stroke-width:1") +
        rule(".bq,.key", "stroke-width:1") + rule(".frame", "stroke-width:1.2") + rule(".alarm-lane", "stroke-width:2") +
        rule(".l,.core,.hl", "fill:none") + rule(".hl,.he", "stroke-width:1.3") +
        rule(".hit", "fill:none;stroke:#000;stroke-opacity:0;stroke-width:9") + rule(".ring", "fill:none;stroke-width:6") +
        rule(".loose", "stroke-width:2.4") + rule(".ride", "stroke-width:1.2;stroke-dasharray:4 3") +
        rule(".hatch", "stroke-width:2.2") + rule(".k-control,.k-mechanism,.k-deform,.k-both", "stroke-width:1.2") +
        rule(".k-hatch", "fill:url(#ligament-hatch);stroke-width:1.4") + rule(".k-line", "fill:none;stroke-width:1") +
        rule(".k-alarm-line", "fill:none;stroke-width:2.4");
    for (std::size_t i = 0; i < line_classes.size(); ++i) {
        std::string look = "stroke-width:" + svg_number(line_styles[i].width);
        if (!line_styles[i].dashes.empty()) look += ";stroke-dasharray:" + std::string(line_styles[i].dashes);
        css += rule("." + std::string(line_classes[i]) + " .l", look);
    }
    return css + rule(".faint .l", "stroke-width:1") +
           rule(".off .l,.off .hl,.off .hf,.off .he", "stroke-opacity:.45;fill-opacity:.45") + rule(".off .l", "stroke-width:1") +
           rule(".cyc .l", "stroke-width:4.6;stroke-dasharray:none") + rule(".cyc .core", "stroke-width:1.8") +
           rule(".wit .l", "stroke-width:7.5") + rule(".wit .core", "stroke-width:3");
}

}  // namespace

std::string style_sheet() {
    return form_rules() + scheme_rules(light_scheme) + "@media screen and (prefers-color-scheme:dark){\n" +
           scheme_rules(dark_scheme) + "}\n";
}

namespace {

/// Bluish green, reddish purple and blue of the palette; outlines say the same.
std::string change_rules(std::string_view added, std::string_view removed, std::string_view changed) {
    return rule(".added .f,.added .o", stroke(added)) + rule(".removed .f,.removed .o", stroke(removed)) +
           rule(".changed .edge", stroke(changed)) + rule(".changed .f", stroke(changed));
}

}  // namespace

std::string change_style_sheet() {
    return rule(".added .f", "stroke-width:3.6") + rule(".removed .f", "stroke-width:1.6;stroke-dasharray:6 4") +
           rule(".edge", "fill:none;stroke-width:6") + change_rules("#00614a", "#8a3f6a", "#005585") +
           "@media screen and (prefers-color-scheme:dark){\n" + change_rules("#1fb88a", "#cc79a7", "#56b4e9") + "}\n";
}

std::string style_definitions() {
    return "<defs><pattern id=\"ligament-hatch\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" "
           "patternTransform=\"rotate(45)\"><path class=\"hatch\" d=\"M1.5 0V6\"/></pattern></defs>\n";
}

}  // namespace ligament
