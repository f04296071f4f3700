// The rules of geometry that every page keeps, whatever is on it.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "labels.hpp"
#include "paper.hpp"
#include "scene.hpp"
#include "shapes.hpp"
#include "style.hpp"
#include "views.hpp"

namespace ligament::testing {

/// Collects what is wrong, so that it can be told from a child process too.
struct SceneFaults {
    std::string text;
    int count = 0;

    void add(const std::string& fault) {
        if (++count <= 20) text += fault + "\n";
    }
};

inline std::string told(const Rect& r) {
    return "[" + svg_number(r.x) + " " + svg_number(r.y) + " " + svg_number(r.width) + "x" + svg_number(r.height) + "]";
}

inline Rect shrunk(const Rect& r, double by) {
    return {r.x + by, r.y + by, std::max(0.0, r.width - 2 * by), std::max(0.0, r.height - 2 * by)};
}

/// A rectangle with what it is, for messages.
struct Named {
    Rect rect;
    std::string name;
};

inline void find_overlaps(const std::vector<Named>& some, const std::vector<Named>& others, const char* what,
                          SceneFaults& faults) {
    const bool same = &some == &others;
    for (std::size_t i = 0; i < some.size(); ++i)
        for (std::size_t k = same ? i + 1 : 0; k < others.size(); ++k)
            if (shrunk(some[i].rect, 0.2).overlaps(others[k].rect))
                faults.add(std::string(what) + " overlap: " + some[i].name + " " + told(some[i].rect) + " and " + others[k].name +
                           " " + told(others[k].rect));
}

inline std::vector<Named> nodes_of(const Scene& scene) {
    std::vector<Named> nodes;
    for (const Node& node : scene.nodes) nodes.push_back({node.rect, "node " + node.box.name});
    return nodes;
}

/// No box overlaps another, and a box is as large as its words want it.
inline void find_node_faults(const Scene& scene, SceneFaults& faults) {
    const std::vector<Named> nodes = nodes_of(scene);
    find_overlaps(nodes, nodes, "nodes", faults);
    for (const Node& node : scene.nodes) {
        if (node.box.name.empty() && node.box.word.empty()) continue;
        const Size wanted = size_of(node.box);
        if (node.rect.width < wanted.width - 0.1 || node.rect.height < wanted.height - 0.1)
            faults.add("node " + node.box.name + " is smaller than its words: " + told(node.rect));
    }
}

/// No label is cut by its box or overlaps another label, a box or a sign; none is too small.
inline void find_label_faults(const Scene& scene, SceneFaults& faults) {
    std::vector<Named> labels, outside, signs;
    for (const Label& label : scene.labels) {
        const Named named{label.extent(), "label \"" + label.words + "\""};
        labels.push_back(named);
        if (label.size < least_size) faults.add(named.name + " is set in " + svg_number(label.size) + " px");
        if (label.inside == none)
            outside.push_back(named);
        else if (label.inside >= scene.nodes.size())
            faults.add(named.name + " stands in a node that is not there");
        else if (!scene.nodes[label.inside].rect.contains(shrunk(named.rect, 0.2)))
            faults.add(named.name + " " + told(named.rect) + " leaves its box " + told(scene.nodes[label.inside].rect));
    }
    for (const Mark& sign : scene.signs) signs.push_back({sign.extent, "sign"});
    find_overlaps(labels, labels, "labels", faults);
    find_overlaps(outside, nodes_of(scene), "label and node", faults);
}

/// Lines run to the boxes that they join and through no others.
inline void find_stroke_faults(const Scene& scene, SceneFaults& faults) {
    for (const Stroke& stroke : scene.strokes) {
        if (stroke.curve.points.size() % 3 != 1)
            faults.add("a line of " + std::to_string(stroke.curve.points.size()) + " points");
        const std::size_t samples = std::max<std::size_t>(24, 8 * (stroke.curve.points.size() / 3));
        for (std::uint32_t n = 0; n < scene.nodes.size(); ++n) {
            if (n == stroke.from || n == stroke.to) continue;
            const Rect inner = shrunk(scene.nodes[n].rect, 1);
            for (std::size_t i = 0; i <= samples; ++i) {
                const Point p = point_at(stroke.curve, static_cast<double>(i) / static_cast<double>(samples));
                if (p.x <= inner.x || p.x >= inner.right() || p.y <= inner.y || p.y >= inner.bottom()) continue;
                faults.add("line " + stroke.hover.substr(0, 60) + " runs through node " + scene.nodes[n].box.name + " " +
                           told(scene.nodes[n].rect));
                break;
            }
        }
        auto away = [&](Point p, std::uint32_t node) {
            if (node == none) return 0.0;
            const Rect& r = scene.nodes[node].rect;
            return std::hypot(std::max({r.x - p.x, 0.0, p.x - r.right()}), std::max({r.y - p.y, 0.0, p.y - r.bottom()}));
        };
        if (away(stroke.curve.points.front(), stroke.from) > 3) faults.add("line " + stroke.hover + " does not start at its box");
        if (away(stroke.curve.tip, stroke.to) > 3) faults.add("line " + stroke.hover + " does not end at its box");
    }
}

inline void find_page_faults(const Scene& scene, Room room, SceneFaults& faults) {
    if (scene.width > room.width + 0.1 || scene.height > room.height + 0.1)
        faults.add("a scene of " + svg_number(scene.width) + " x " + svg_number(scene.height) + " in a room of " +
                   svg_number(room.width) + " x " + svg_number(room.height));
    const Rect page{-0.1, -0.1, scene.width + 0.2, scene.height + 0.2};
    auto need = [&](const Rect& rect, const std::string& what) {
        if (!page.contains(rect)) faults.add(what + " " + told(rect) + " leaves the page " + told(page));
    };
    for (const Named& node : nodes_of(scene)) need(node.rect, node.name);
    for (const Backdrop& backdrop : scene.backdrops) need(backdrop.rect, "backdrop");
    for (const Label& label : scene.labels) need(label.extent(), "label \"" + label.words + "\"");
    for (const Mark& mark : scene.marks) need(mark.extent, "mark");
    for (const Mark& sign : scene.signs) need(sign.extent, "sign");
    for (const Stroke& stroke : scene.strokes)
        for (Point p : stroke.curve.points) need({p.x, p.y, 0, 0}, "line " + stroke.hover.substr(0, 60));
}

/// All that is wrong with a sheet for a room of that size; nothing where all is well.
inline std::string faults_of(const Sheet& sheet, Room room) {
    SceneFaults faults;
    find_page_faults(sheet.scene, room, faults);
    find_node_faults(sheet.scene, faults);
    find_label_faults(sheet.scene, faults);
    find_stroke_faults(sheet.scene, faults);
    if (faults.count > 20) faults.text += "and " + std::to_string(faults.count - 20) + " more\n";
    return faults.text;
}

/// What is wrong with the page that the sheet becomes: text that is too small on paper, a legend or title that does not fit.
inline std::string faults_of_page(const Sheet& sheet, Paper paper) {
    const Page page = compose(sheet, paper);
    SceneFaults faults;
    if (page.least_text < least_points) faults.add("text of " + std::to_string(page.least_text) + " pt");
    const Rect all{0, 0, page.width, page.height};
    const Rect content{page.origin.x, page.origin.y, sheet.scene.width * page.scale, sheet.scene.height * page.scale};
    if (!all.contains(content)) faults.add("the content leaves the paper: " + told(content));
    if (page.legend_frame.height > 0 && !all.contains(page.legend_frame)) faults.add("the legend leaves the paper");
    if (content.overlaps(page.legend_frame)) faults.add("the content overlaps the legend");
    for (const Label& label : page.header.labels) {
        if (!all.contains(label.extent())) faults.add("\"" + label.words + "\" leaves the paper");
        if (label.extent().overlaps(content)) faults.add("\"" + label.words + "\" overlaps the content");
    }
    for (const Label& label : page.legend.labels)
        if (!page.legend_frame.contains(label.extent())) faults.add("\"" + label.words + "\" leaves the legend");
    return faults.text;
}

inline void expect_good(const Sheet& sheet, Room room) { EXPECT_EQ(faults_of(sheet, room), "") << sheet.title; }

}  // namespace ligament::testing
