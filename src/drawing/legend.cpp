// What do the shapes and lines of this picture mean?
#include "legend.hpp"

#include <algorithm>

#include "style.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double text_size = 11, sample_width = 56, row_height = 30, entry_gap = 26, edge = 14;

struct Entry {
    std::string sample;  // drawn in sample_width x row_height at 0, 0
    std::string text;

    double width() const { return (sample.empty() ? 0 : sample_width + 8) + width_of(text, text_size); }
};

Entry box_entry(Shape shape, std::vector<Badge> badges, std::string text) {
    Box box;
    box.shape = shape;
    for (Badge& badge : badges) badge.word.clear();
    box.badges = std::move(badges);
    const bool frame = box.has(Badge::Kind::unattached) || box.has(Badge::Kind::carried);
    const double half = frame ? 14 : 10;
    Box bare = box;
    std::string svg = draw_box(bare, {4, row_height / 2 - half, sample_width - 8, 2 * half});
    return {svg, std::move(text)};
}

Entry line_entry(const Arrow& arrow, std::string text) {
    const double y = row_height / 2;
    return {draw_arrow(arrow, {{{2, y}, {16, y}, {30, y}, {sample_width - 11, y}}, {sample_width - 2, y}}), std::move(text)};
}

void add_shapes(const Plan& plan, std::vector<Entry>& entries) {
    for (std::size_t s = 0; s < shape_count; ++s) {
        const auto shape = static_cast<Shape>(s);
        if (std::any_of(plan.boxes.begin(), plan.boxes.end(), [&](const Box& box) { return box.shape == shape; }))
            entries.push_back(box_entry(shape, {}, std::string(shape_names[s])));
    }
}

void add_lines(const Plan& plan, std::vector<Entry>& entries) {
    auto add = [&](auto is, const Arrow& sample, std::string text) {
        if (std::any_of(plan.arrows.begin(), plan.arrows.end(), is)) entries.push_back(line_entry(sample, std::move(text)));
    };
    for (std::size_t k = 0; k < line_styles.size(); ++k) {
        Arrow sample;
        sample.kind = static_cast<EdgeKind>(k);
        add([&](const Arrow& arrow) { return arrow.kind == sample.kind; }, sample, std::string(line_styles[k].name));
    }
    Arrow inert, cycle, witness;
    inert.kind = cycle.kind = witness.kind = EdgeKind::constraint;
    inert.inert = cycle.cycle = witness.cycle = witness.witness = true;
    add([](const Arrow& arrow) { return arrow.inert; }, inert,
        plan.in_state ? "faint, (off): disabled, of weight 0 or replaced in this state"
                      : "faint, (off): disabled or of weight 0");
    add([](const Arrow& arrow) { return arrow.cycle && !arrow.witness; }, cycle, "double: in a cycle");
    add([](const Arrow& arrow) { return arrow.witness; }, witness, "heavy double: the cycle's shortest loop");
}

void add_verdicts(const Plan& plan, std::vector<Entry>& entries) {
    auto occurs = [&](Badge::Kind kind) {
        return std::any_of(plan.boxes.begin(), plan.boxes.end(), [&](const Box& box) { return box.has(kind); });
    };
    const Shape shape = plan.by_groups ? Shape::group : Shape::deform;
    if (occurs(Badge::Kind::cycle))
        entries.push_back(box_entry(plan.by_groups ? Shape::group : Shape::mechanism, {{Badge::Kind::cycle, ""}},
                                    "ringed: in the cycle of that number"));
    if (occurs(Badge::Kind::unattached))
        entries.push_back(box_entry(shape, {{Badge::Kind::unattached, ""}}, "hatched frame: no control of its own moves it"));
    if (occurs(Badge::Kind::carried))
        entries.push_back(box_entry(shape, {{Badge::Kind::carried, ""}}, "dashed frame: only rides on its deform parent"));
}

}  // namespace

Legend draw_legend(const Plan& plan, std::size_t labels_left_out, double width) {
    std::vector<Entry> entries;
    add_shapes(plan, entries);
    add_lines(plan, entries);
    add_verdicts(plan, entries);
    if (labels_left_out)
        entries.push_back(
            {"", number_of(labels_left_out, "label") + " left out for want of room: line, head and hover title still tell"});
    if (entries.empty()) return {};

    Legend legend;
    double x = edge, y = 4;
    std::string body;
    for (const Entry& entry : entries) {
        if (x > edge && x + entry.width() + edge > width) x = edge, y += row_height;
        body += "<g transform=\"translate(" + svg_number(x) + " " + svg_number(y) + ")\">" + entry.sample +
                svg_text({entry.sample.empty() ? 0 : sample_width + 8, row_height / 2 + 4}, entry.text, text_size, "tl") +
                "</g>\n";
        x += entry.width();
        legend.size.width = std::max(legend.size.width, x + edge);
        x += entry_gap;
    }
    legend.size.height = y + row_height + 4;
    legend.svg = "<rect class=\"key\" width=\"" + svg_number(legend.size.width) + "\" height=\"" +
                 svg_number(legend.size.height) + "\" rx=\"6\"/>\n" + body;
    return legend;
}

}  // namespace ligament
