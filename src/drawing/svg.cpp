// How does a plan with its places become a picture?
#include "svg.hpp"

#include <algorithm>
#include <utility>

#include "labels.hpp"
#include "legend.hpp"
#include "shapes.hpp"
#include "style.hpp"
#include "text.hpp"

namespace ligament {

namespace {

constexpr double margin = 28, title_size = 22, subtitle_size = 12, group_title_size = 14, least_width = 760, widest_legend = 1600;

double header_height(const Plan& plan) { return margin + title_size + 10 + 18 * static_cast<double>(plan.subtitle.size()) + 10; }

void move(Page& page, double dx, double dy) {
    auto shift = [&](auto& p) { p.x += dx, p.y += dy; };
    for (auto* rects : {&page.layout.boxes, &page.layout.groups, &page.titles})
        for (Rect& r : *rects) shift(r);
    for (std::optional<Rect>& label : page.labels)
        if (label) shift(*label);
    for (Curve& curve : page.layout.curves) {
        for (Point& p : curve.points) shift(p);
        shift(curve.tip);
    }
    page.layout.width += dx;
    page.layout.height += dy;
}

std::string shown_title(const GroupFrame& group, const Rect& frame) {
    return cut_in_middle(group.name, group_title_size, std::max(40.0, frame.width - 16));
}

std::string style_rules(const Scheme& s) {
    auto rule = [](std::string_view selector, std::string_view body) {
        return std::string(selector) + "{" + std::string(body) + "}\n";
    };
    auto fill = [](std::string_view c) { return "fill:" + std::string(c); };
    auto stroke = [](std::string_view c) { return "stroke:" + std::string(c); };
    static constexpr std::array<std::string_view, shape_count> shapes{"ctl", "mech", "def", "cdf", "prp",
                                                                      "obj", "slv",  "bnd", "grp"};
    static constexpr std::array<std::string_view, 6> lines{"parent", "constraint", "driver", "solver", "curve", "order"};
    std::string css = rule(".paper,.lab", fill(s.paper)) + rule(".tn,.tt,.tg", fill(s.ink)) +
                      rule(".tw,.ts,.tl,.ta", fill(s.quiet)) + rule(".tb", fill(s.paper)) + rule(".bl", fill(s.ink)) +
                      rule(".bq", fill(s.paper) + ";" + stroke(s.quiet)) +
                      rule(".frame", fill(s.group_fill) + ";" + stroke(s.group_line)) + rule(".plate", fill(s.group_fill)) +
                      rule(".key", fill(s.paper) + ";" + stroke(s.group_line)) + rule(".core", stroke(s.paper)) +
                      rule(".ring", stroke(s.alarm)) + rule(".loose", fill(s.paper) + ";" + stroke(s.alarm)) +
                      rule(".ride", fill(s.paper) + ";" + stroke(s.quiet)) + rule(".hatch", stroke(s.alarm));
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        const std::string name(shapes[i]);
        css += rule("." + name + " .f", fill(s.boxes[i].fill) + ";" + stroke(s.boxes[i].line)) +
               rule("." + name + " .o", stroke(s.boxes[i].line));
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string name(lines[i]), colour(s.lines[i]);
        css += rule("." + name + " .l,." + name + " .hl", "stroke:" + colour) + rule("." + name + " .hf", "fill:" + colour) +
               rule("." + name + " .he", fill(s.paper) + ";stroke:" + colour);
    }
    css += rule(".cyc .l,.cyc .hl", stroke(s.alarm)) + rule(".cyc .hf,.cyc .he", fill(s.alarm) + ";" + stroke(s.alarm));
    return css;
}

std::string style_sheet() {
    std::string css =
        "text{font-family:ui-monospace,monospace;unicode-bidi:isolate;white-space:pre}\n.m{text-anchor:middle}\n"
        ".tn{font-size:12px}.tw{font-size:10px}.tb{font-size:10px;font-weight:bold}.ta{font-size:9.5px}.tl{font-size:11px}\n"
        ".tg{font-size:14px;font-weight:bold}.tt{font-size:22px;font-weight:bold}.ts{font-size:12px}\n"
        ".f{stroke-width:1.3}.mech .f{stroke-width:1}.o{fill:none;stroke-width:1.3}.def .f,.cdf .f,.grp .f{stroke-width:1.5}\n"
        ".bq{stroke-width:1}.frame{stroke-width:1.2}.key{stroke-width:1}\n"
        ".l,.core,.hl{fill:none}.hl,.he{stroke-width:1.3}.hit{fill:none;stroke:#000;stroke-opacity:0;stroke-width:9}\n"
        ".ring{fill:none;stroke-width:6}.loose{stroke-width:2.4}.ride{stroke-width:1.2;stroke-dasharray:4 "
        "3}.hatch{stroke-width:2.2}\n";
    static constexpr std::array<std::string_view, 6> lines{"parent", "constraint", "driver", "solver", "curve", "order"};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        css += "." + std::string(lines[i]) + " .l{stroke-width:" + svg_number(line_styles[i].width);
        if (!line_styles[i].dashes.empty()) css += ";stroke-dasharray:" + std::string(line_styles[i].dashes);
        css += "}\n";
    }
    css +=
        ".off .l,.off .hl,.off .hf,.off .he{stroke-opacity:.45;fill-opacity:.45}\n.off .l{stroke-width:1}\n"
        ".cyc .l{stroke-width:4.6;stroke-dasharray:none}.cyc .core{stroke-width:1.8}.wit .l{stroke-width:7.5}.wit "
        ".core{stroke-width:3}\n";
    css += style_rules(light_scheme);
    css += "@media screen and (prefers-color-scheme:dark){\n" + style_rules(dark_scheme) + "}\n";
    return css;
}

std::string rect_tag(const Rect& r, double radius, std::string_view css_class) {
    return "<rect class=\"" + std::string(css_class) + "\" x=\"" + svg_number(r.x) + "\" y=\"" + svg_number(r.y) + "\" width=\"" +
           svg_number(r.width) + "\" height=\"" + svg_number(r.height) + "\" rx=\"" + svg_number(radius) + "\"/>";
}

std::string draw_groups(const Plan& plan, const Page& page) {
    std::string out;
    for (std::size_t g = 0; g < plan.groups.size(); ++g)
        out += "<g><title>" + escaped(plan.groups[g].hover) + "</title>" + rect_tag(page.layout.groups[g], 8, "frame") + "</g>\n";
    return out;
}

std::string draw_titles(const Plan& plan, const Page& page) {
    std::string out;
    for (std::size_t g = 0; g < plan.groups.size(); ++g) {
        const Rect& at = page.titles[g];
        out += "<g><title>" + escaped(plan.groups[g].hover) + "</title>" + rect_tag(at, 3, "plate") +
               svg_text({at.x + 4, at.y + 14}, shown_title(plan.groups[g], page.layout.groups[g]), group_title_size, "tg") +
               "</g>\n";
    }
    return out;
}

/// Faint ones first, cycles last, so that what matters lies on top.
std::string draw_arrows(const Plan& plan, const Page& page) {
    auto importance = [](const Arrow& arrow) { return arrow.witness ? 3 : arrow.cycle ? 2 : arrow.inert ? 0 : 1; };
    std::string out;
    for (int now = 0; now <= 3; ++now)
        for (std::size_t a = 0; a < plan.arrows.size(); ++a)
            if (importance(plan.arrows[a]) == now) out += draw_arrow(plan.arrows[a], page.layout.curves[a]);
    return out;
}

std::string draw_labels(const Plan& plan, const Page& page) {
    std::string out;
    for (std::size_t a = 0; a < plan.arrows.size(); ++a) {
        if (!page.labels[a]) continue;
        const Rect& at = *page.labels[a];
        out += "<g><title>" + escaped(plan.arrows[a].hover) + "</title>" + rect_tag(at, 3, "lab") +
               svg_text({at.centre().x, at.y + 9.7}, plan.arrows[a].word, label_size, "ta", true) + "</g>\n";
    }
    return out;
}

std::string draw_header(const Plan& plan, const Page& page) {
    double y = margin + title_size - 4;
    std::string out =
        svg_text({margin, y}, cut_in_middle(plan.title, title_size, page.width - 2 * margin), title_size, "tt") + "\n";
    y += 6;
    for (const std::string& line : plan.subtitle) out += svg_text({margin, y += 18}, line, subtitle_size, "ts") + "\n";
    return out;
}

/// Room between layers for nine of ten labels, within reason.
double gap_for_labels(const Plan& plan) {
    constexpr double around = 36, least = 60, most = 120;
    std::vector<double> widths;
    for (const Arrow& arrow : plan.arrows)
        if (!arrow.word.empty()) widths.push_back(width_of(arrow.word, label_size));
    if (widths.empty()) return least;
    std::sort(widths.begin(), widths.end());
    return std::clamp(widths[(widths.size() * 9 - 1) / 10] + around, least, most);
}

}  // namespace

LayoutTask task_of(const Plan& plan) {
    LayoutTask task;
    task.groups = static_cast<std::uint32_t>(plan.groups.size());
    for (const Box& box : plan.boxes) {
        const Size size = size_of(box);
        task.nodes.push_back({size.width, size.height, box.group});
    }
    for (const Arrow& arrow : plan.arrows)
        task.links.push_back({arrow.from, arrow.to, arrow.inert ? 0u : arrow.kind == EdgeKind::parent ? 2u : 1u});
    task.column_gap = gap_for_labels(plan);
    for (const auto& [first, second] : plan.ties) task.ties.push_back({first, second, 4});
    return task;
}

Page compose(const Plan& plan, Layout layout) {
    Page page;
    page.layout = std::move(layout);
    for (std::size_t g = 0; g < plan.groups.size(); ++g) {
        const Rect& frame = page.layout.groups[g];
        page.titles.push_back({frame.x + 6, frame.y + 3, width_of(shown_title(plan.groups[g], frame), group_title_size) + 8, 19});
    }
    page.labels = place_labels(plan, page.layout, page.titles);
    for (std::size_t a = 0; a < plan.arrows.size(); ++a) page.labels_left_out += !plan.arrows[a].word.empty() && !page.labels[a];

    page.width = std::max(page.layout.width, least_width);
    for (const std::string& line : plan.subtitle) page.width = std::max(page.width, width_of(line, subtitle_size));
    const Legend legend = draw_legend(plan, page.labels_left_out, std::min(page.width, widest_legend));
    const double header = header_height(plan);
    page.legend = {margin, header, legend.size.width, legend.size.height};
    page.legend_svg = legend.svg;
    move(page, margin, legend.size.height > 0 ? page.legend.bottom() + margin : header);
    page.width = std::max(page.width, legend.size.width) + 2 * margin;
    page.height = page.layout.height + margin;
    return page;
}

std::string write_svg(const Plan& plan, const Page& page) {
    const std::string width = svg_number(page.width), height = svg_number(page.height);
    std::string about = "dependency graph of rig " + isolated(plan.title);
    for (const std::string& line : plan.subtitle) about += "; " + line;
    std::string out =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width +
        "\" height=\"" + height + "\" viewBox=\"0 0 " + width + " " + height + "\" role=\"img\" aria-label=\"" + escaped(about) +
        "\">\n<style>\n" + style_sheet() + "</style>\n<defs><pattern id=\"ligament-hatch\" width=\"6\" " +
        "height=\"6\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path class=\"hatch\" " +
        "d=\"M1.5 0V6\"/></pattern></defs>\n<rect class=\"paper\" width=\"" + width + "\" height=\"" + height + "\"/>\n";
    out += draw_header(plan, page) + draw_groups(plan, page) + draw_arrows(plan, page) + draw_titles(plan, page);
    for (std::size_t b = 0; b < plan.boxes.size(); ++b) out += draw_box(plan.boxes[b], page.layout.boxes[b]);
    out += draw_labels(plan, page);
    if (!page.legend_svg.empty())
        out += "<g transform=\"translate(" + svg_number(page.legend.x) + " " + svg_number(page.legend.y) + ")\">\n" +
               page.legend_svg + "</g>\n";
    return out + "</svg>\n";
}

}  // namespace ligament
