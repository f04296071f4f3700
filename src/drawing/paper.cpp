// How does a sheet become a page?
#include "paper.hpp"

#include <algorithm>

#include "legend.hpp"
#include "shapes.hpp"
#include "style.hpp"
#include "text.hpp"

namespace ligament {

namespace {

constexpr double px_a_mm = 96 / 25.4, points_a_px = 0.75;
constexpr double margin = 10 * px_a_mm, title_size = 18, subtitle_size = 10.5, line_height = 15, gap = 8;
constexpr double largest_scale = 1.5;

/// A line of words broken so that none is wider than `width`, at its spaces where there are some.
std::vector<std::string> lines_of(const std::string& words, double width) {
    std::vector<std::string> lines(1);
    std::size_t at = 0;
    while (at <= words.size()) {
        const std::size_t space = std::min(words.find(' ', at), words.size());
        const std::string word = cut_in_middle(words.substr(at, space - at), subtitle_size, width);
        const std::string longer = lines.back().empty() ? word : lines.back() + " " + word;
        if (width_of(longer, subtitle_size) <= width)
            lines.back() = longer;
        else
            lines.push_back(word);
        at = space + 1;
    }
    return lines;
}

Scene header_of(const Sheet& sheet, double width) {
    Scene header;
    double y = margin + title_size;
    header.add(Label{.at = {margin, y},
                     .words = cut_in_middle(sheet.title, title_size, width),
                     .size = title_size,
                     .bold = true,
                     .hover = width_of(sheet.title, title_size) > width ? sheet.title : std::string()});
    y += 5;
    for (const std::string& line : sheet.subtitle)
        for (const std::string& part : lines_of(line, width))
            header.add(Label{.at = {margin, y += line_height}, .words = part, .size = subtitle_size, .tone = Tone::quiet});
    header.width = width;
    header.height = y + 4 - margin;
    return header;
}

double least_text_of(const Scene& scene) {
    double least = 1e9;
    for (const Label& label : scene.labels) least = std::min(least, label.size);
    for (const Node& node : scene.nodes) {
        const bool has_words = !node.box.word.empty() || !node.box.badges.empty();
        if (has_words) least = std::min(least, word_size);
        if (!node.box.name.empty()) least = std::min(least, name_size);
    }
    return least;
}

/// Faint ones first, cycles last, so that what matters lies on top.
std::string draw_strokes(const Scene& scene) {
    auto importance = [](const Stroke& s) { return s.witness ? 3 : s.cycle ? 2 : s.inert || s.faint ? 0 : 1; };
    std::string out;
    for (int now = 0; now <= 3; ++now)
        for (const Stroke& stroke : scene.strokes)
            if (importance(stroke) == now) out += draw_stroke(stroke);
    return out;
}

std::string draw_scene(const Scene& scene) {
    std::string out;
    for (const Backdrop& backdrop : scene.backdrops) out += draw_backdrop(backdrop);
    for (const Mark& mark : scene.marks) out += draw_mark(mark);
    out += draw_strokes(scene);
    for (const Node& node : scene.nodes) out += draw_node(node);
    for (const Label& label : scene.labels) out += draw_label(label) + "\n";
    for (const Mark& sign : scene.signs) out += draw_mark(sign);
    return out;
}

std::string frame_tag(const Rect& r) {
    return "<rect class=\"key\" x=\"" + svg_number(r.x) + "\" y=\"" + svg_number(r.y) + "\" width=\"" + svg_number(r.width) +
           "\" height=\"" + svg_number(r.height) + "\" rx=\"5\"/>\n";
}

}  // namespace

PaperSize size_of(Paper paper) {
    switch (paper) {
        case Paper::a3:
            return {420, 297};
        case Paper::letter:
            return {279.4, 215.9};
        default:
            return {297, 210};
    }
}

Room room_on(Paper paper) {
    const PaperSize size = size_of(paper);
    constexpr double header = title_size + 5 + 3 * line_height + 4, legend = 54;
    return {size.width_mm * px_a_mm - 2 * margin, size.height_mm * px_a_mm - 2 * margin - header - legend - 2 * gap};
}

Page compose(const Sheet& sheet, Paper paper) {
    Page page;
    page.paper = size_of(paper);
    page.width = page.paper.width_mm * px_a_mm, page.height = page.paper.height_mm * px_a_mm;
    const double width = page.width - 2 * margin;
    page.header = header_of(sheet, width);
    page.legend = draw_legend(sheet, width);
    double bottom = page.height - margin;
    if (page.legend.height > 0) {
        page.legend_frame = {margin, bottom - page.legend.height, page.legend.width, page.legend.height};
        shift(page.legend, page.legend_frame.x, page.legend_frame.y);
        bottom = page.legend_frame.y - gap;
    }
    const double top = margin + page.header.height + gap, height = bottom - top;
    const Scene& scene = sheet.scene;
    page.scale = std::min({largest_scale, scene.width > 0 ? width / scene.width : largest_scale,
                           scene.height > 0 ? height / scene.height : largest_scale});
    page.origin = {margin + (width - scene.width * page.scale) / 2, top};
    page.least_text = points_a_px * std::min({title_size, least_text_of(page.header), least_text_of(page.legend),
                                              least_text_of(scene) * page.scale});
    return page;
}

std::string write_svg(const Sheet& sheet, const Page& page, bool embedded) {
    std::string about;
    for (const std::string& line : sheet.subtitle) about += (about.empty() ? "" : "; ") + line;
    std::string out = embedded ? "" : "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    const std::string size =
        embedded ? std::string()
                 : " width=\"" + svg_number(page.paper.width_mm) + "mm\" height=\"" + svg_number(page.paper.height_mm) + "mm\"";
    out += "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"lg\"" + size + " viewBox=\"0 0 " + svg_number(page.width) + " " +
           svg_number(page.height) + "\" role=\"graphics-document document\" aria-label=\"" + escaped(isolated(sheet.title)) +
           "\">\n<desc>" + escaped(about) + "</desc>\n";
    const auto is_of_change = [](const Node& node) { return node.novelty != Novelty::same; };
    const bool has_changes = std::any_of(sheet.scene.nodes.begin(), sheet.scene.nodes.end(), is_of_change);
    if (!embedded)
        out += "<style>\n" + style_sheet() + (has_changes ? change_style_sheet() : "") + "</style>\n" + style_definitions();
    out += "<rect class=\"paper\" width=\"" + svg_number(page.width) + "\" height=\"" + svg_number(page.height) + "\"/>\n";
    out += draw_scene(page.header);
    char scale[32];
    std::snprintf(scale, sizeof scale, "%.4f", page.scale);
    out += "<g transform=\"translate(" + svg_number(page.origin.x) + " " + svg_number(page.origin.y) + ") scale(" + scale +
           ")\">\n" + draw_scene(sheet.scene) + "</g>\n";
    if (page.legend_frame.height > 0)
        out += "<g class=\"legend\">" + frame_tag(page.legend_frame) + draw_scene(page.legend) + "</g>\n";
    return out + "</svg>\n";
}

}  // namespace ligament
