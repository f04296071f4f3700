// What do the shapes and lines of this picture mean?
#include "legend.hpp"

#include <algorithm>

#include "style.hpp"
#include "text.hpp"

namespace ligament {

namespace {

constexpr double text_size = 9.5, sample_width = 44, sample_gap = 6, row_height = 24, entry_gap = 20, edge = 10;

double length_of(const LegendEntry& entry) {
    return (entry.sample.width > 0 ? entry.sample.width + sample_gap : 0) + width_of(entry.text, text_size);
}

LegendEntry box_entry(Shape shape, std::vector<Badge> badges, std::string text, bool faint = false) {
    LegendEntry entry;
    entry.text = std::move(text);
    Node node;
    node.box.shape = shape;
    node.box.badges = std::move(badges);
    node.faint = faint;
    const bool frame = node.box.has(Badge::Kind::unattached) || node.box.has(Badge::Kind::carried);
    const double half = frame ? 11 : 8;
    node.rect = {2, row_height / 2 - half, sample_width - 4, 2 * half};
    entry.sample.add(std::move(node));
    entry.sample.width = sample_width, entry.sample.height = row_height;
    return entry;
}

LegendEntry line_entry(Stroke stroke, std::string text) {
    LegendEntry entry;
    const double y = row_height / 2, end = sample_width - 2;
    const double head = stroke.headless ? 0 : 9;
    stroke.curve = {{{2, y}, {14, y}, {24, y}, {end - head, y}}, {end, y}};
    entry.sample.strokes.push_back(std::move(stroke));
    entry.sample.width = sample_width, entry.sample.height = row_height;
    entry.text = std::move(text);
    return entry;
}

void add_shapes(const Scene& scene, std::vector<LegendEntry>& entries) {
    for (std::size_t s = 0; s < shape_count; ++s) {
        const auto shape = static_cast<Shape>(s);
        const auto is_plain = [&](const Node& node) {
            const bool is_bare_card = shape == Shape::group && node.box.name.empty() && node.about.kind != About::Kind::group;
            return node.box.shape == shape && !node.faint && !is_bare_card;
        };
        if (std::any_of(scene.nodes.begin(), scene.nodes.end(), is_plain))
            entries.push_back(box_entry(shape, {}, std::string(shape_names[s])));
    }
}

void add_lines(const Sheet& sheet, std::vector<LegendEntry>& entries) {
    const std::vector<Stroke>& strokes = sheet.scene.strokes;
    auto add = [&](auto is, const Stroke& sample, std::string text) {
        if (std::any_of(strokes.begin(), strokes.end(), is)) entries.push_back(line_entry(sample, std::move(text)));
    };
    for (std::size_t k = 0; k < line_styles.size(); ++k) {
        Stroke sample;
        sample.kind = static_cast<EdgeKind>(k);
        add([&](const Stroke& stroke) { return stroke.kind == sample.kind && !stroke.cycle && !stroke.headless; }, sample,
            std::string(line_styles[k].name));
    }
    Stroke inert, cycle, witness;
    inert.kind = cycle.kind = witness.kind = EdgeKind::constraint;
    inert.inert = cycle.cycle = witness.cycle = witness.witness = true;
    add([](const Stroke& stroke) { return stroke.inert; }, inert,
        sheet.in_state ? "faint, (off): disabled, of weight 0 or replaced in this state"
                       : "faint, (off): disabled or of weight 0");
    add([](const Stroke& stroke) { return stroke.cycle && !stroke.witness; }, cycle, "double: in a cycle");
    add([](const Stroke& stroke) { return stroke.witness; }, witness, "heavy double: the cycle's shortest loop");
}

void add_verdicts(const Scene& scene, std::vector<LegendEntry>& entries) {
    auto first = [&](Badge::Kind kind) {
        return std::find_if(scene.nodes.begin(), scene.nodes.end(), [&](const Node& node) { return node.box.has(kind); });
    };
    auto add = [&](Badge::Kind kind, const char* of_bone, const char* of_group) {
        const auto node = first(kind);
        if (node == scene.nodes.end()) return;
        const bool is_group = node->box.shape == Shape::group;
        entries.push_back(box_entry(node->box.shape, {{kind, ""}}, is_group ? of_group : of_bone));
    };
    add(Badge::Kind::cycle, "ringed: in a cycle", "ringed: has bones in cycles");
    add(Badge::Kind::unattached, "hatched frame: no control of its own moves it", "hatched frame: has deform bones not attached");
    add(Badge::Kind::carried, "dashed frame: only rides on its deform parent", "dashed frame: has carried deform bones");
}

}  // namespace

Scene draw_legend(const Sheet& sheet, double width) {
    std::vector<LegendEntry> entries;
    add_shapes(sheet.scene, entries);
    add_lines(sheet, entries);
    add_verdicts(sheet.scene, entries);
    entries.insert(entries.end(), sheet.legend.begin(), sheet.legend.end());
    Scene legend;
    if (entries.empty()) return legend;
    double x = edge, y = 3;
    for (const LegendEntry& entry : entries) {
        if (x > edge && x + length_of(entry) + edge > width) x = edge, y += row_height;
        const double at = entry.sample.width > 0 ? x + entry.sample.width + sample_gap : x;
        append(legend, entry.sample, x, y + (row_height - entry.sample.height) / 2);
        legend.add(Label{.at = {at, y + row_height / 2 + 3.3}, .words = entry.text, .size = text_size, .tone = Tone::quiet});
        x += length_of(entry);
        legend.width = std::max(legend.width, x + edge);
        x += entry_gap;
    }
    legend.height = y + row_height + 3;
    return legend;
}

}  // namespace ligament
