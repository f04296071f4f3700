// How do many bones stand on a page in little room?
#include "lists.hpp"

#include <algorithm>
#include <cmath>

#include "shapes.hpp"
#include "style.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double baseline = 10.2;  // of a row's words below its top
constexpr double gap = 12;         // between columns

Row::Sign sign_of(Shape shape) {
    switch (shape) {
        case Shape::control:
            return Row::Sign::control;
        case Shape::deform:
            return Row::Sign::deform;
        case Shape::control_deform:
            return Row::Sign::control_deform;
        default:
            return Row::Sign::mechanism;
    }
}

std::string cut_corners(const Rect& r) {
    constexpr double c = 3;
    return polygon_path({{r.x + c, r.y},
                         {r.right() - c, r.y},
                         {r.right(), r.y + c},
                         {r.right(), r.bottom() - c},
                         {r.right() - c, r.bottom()},
                         {r.x + c, r.bottom()},
                         {r.x, r.bottom() - c},
                         {r.x, r.y + c}});
}

std::string lower_edge(const Rect& r, double inset) {
    return "M" + svg_number(r.x + inset) + " " + svg_number(r.bottom() - 2.4) + "H" + svg_number(r.right() - inset);
}

/// The boxes of the roles, as small as a letter.
Mark sign_mark(Row::Sign sign, const Rect& r) {
    switch (sign) {
        case Row::Sign::control:
            return {cut_corners(r), r, Mark::Look::control, {}, {}};
        case Row::Sign::deform:
            return {rect_path(r) + lower_edge(r, 0), r, Mark::Look::deform, {}, {}};
        case Row::Sign::control_deform:
            return {cut_corners(r) + lower_edge(r, 0.6), r, Mark::Look::both, {}, {}};
        case Row::Sign::group:
            return {rect_path(r) + rect_path({r.x + 2.4, r.y + 2.4, r.width - 4.8, r.height - 4.8}), r, Mark::Look::line, {}, {}};
        case Row::Sign::property:
            return {disc_path(r.centre(), r.height / 2), r, Mark::Look::line, {}, {}};
        default:
            return {rect_path(r), r, Mark::Look::mechanism, {}, {}};
    }
}

Rect sign_place(Point top_left) { return {top_left.x + 0.7, top_left.y + 2.3, 10, 9}; }

std::string_view meaning_of(Row::Sign sign) {
    switch (sign) {
        case Row::Sign::control:
            return shape_names[static_cast<std::size_t>(Shape::control)];
        case Row::Sign::mechanism:
            return shape_names[static_cast<std::size_t>(Shape::mechanism)];
        case Row::Sign::deform:
            return shape_names[static_cast<std::size_t>(Shape::deform)];
        case Row::Sign::control_deform:
            return shape_names[static_cast<std::size_t>(Shape::control_deform)];
        case Row::Sign::group:
            return "bones of a group, counted";
        case Row::Sign::property:
            return "property";
        case Row::Sign::nothing:
            break;
    }
    return {};
}

}  // namespace

Shape role_shape(const Bone& bone) {
    if (bone.control) return bone.deform ? Shape::control_deform : Shape::control;
    return bone.deform ? Shape::deform : Shape::mechanism;
}

// Bones come first among the folded vertices, and all of them are there.
std::uint32_t cycle_of(const Subject& subject, BoneId bone) { return subject.folded.vertices[bone].cycle; }

std::string hover_of(const Subject& subject, BoneId bone) {
    return hover_of(subject.rig, subject.dependencies, subject.folded.vertices[bone], subject.verdict[bone]);
}

Row plain_row_of(const Subject& subject, BoneId bone) {
    Row row;
    row.words = drawable(subject.rig.bones[bone].name);
    row.sign = sign_of(role_shape(subject.rig.bones[bone]));
    row.hover = hover_of(subject, bone);
    row.about = {About::Kind::bone, bone};
    return row;
}

Row row_of(const Subject& subject, BoneId bone, bool with_cycle) {
    Row row = plain_row_of(subject, bone);
    const Attachment* own = subject.verdict[bone];
    if (own && own->verdict != Verdict::attached) {
        row.note += " " + std::string(name_of(own->verdict));
        if (own->verdict != Verdict::carried) row.tone = Tone::alarm, row.hatched = true;
    }
    if (const std::uint32_t cycle = cycle_of(subject, bone); cycle && with_cycle) {
        row.note += " cycle " + std::to_string(cycle);
        row.tone = Tone::alarm;
    }
    return row;
}

Box box_of(const Subject& subject, BoneId bone, double width) {
    Box box;
    box.shape = role_shape(subject.rig.bones[bone]);
    box.word = std::string(role_of(subject.rig.bones[bone]));
    if (const std::uint32_t cycle = cycle_of(subject, bone))
        box.badges.push_back({Badge::Kind::cycle, "cycle " + std::to_string(cycle)});
    const Attachment* own = subject.verdict[bone];
    if (own && own->verdict != Verdict::attached)
        box.badges.push_back({own->verdict == Verdict::carried ? Badge::Kind::carried : Badge::Kind::unattached,
                              std::string(name_of(own->verdict))});
    box.name = std::string(30, 'm');  // wider than what stands below it
    const double padding = size_of(box).width - width_of(box.name, name_size);
    const std::string name = drawable(subject.rig.bones[bone].name);
    box.name = cut_in_middle(name, name_size, std::max(width - padding, width_of("ab\u2026cd", name_size)));
    box.hover = hover_of(subject, bone);
    return box;
}

double width_of(const Row& row) {
    return (row.sign == Row::Sign::nothing ? 0 : sign_width) + width_of(row.words, row_size) + width_of(row.note, row_size);
}

void add_row(Scene& scene, const Row& row, Point top_left, double width, std::uint32_t inside) {
    double x = top_left.x;
    if (row.sign != Row::Sign::nothing) {
        const Rect place = sign_place(top_left);
        std::vector<Mark>& marks = inside == none ? scene.marks : scene.signs;  // a node covers marks
        marks.push_back(sign_mark(row.sign, place));
        if (row.hatched) marks.push_back({rect_path(place), place, Mark::Look::hatch, {}, {}});
        x += sign_width;
    }
    const double all = width - (x - top_left.x);
    const std::string note = cut_in_middle(row.note, row_size, all * 0.75);
    const std::string words = cut_in_middle(row.words, row_size, all - width_of(note, row_size));
    Label label = label_at(x, top_left.y, words + note, row.tone, row.bold);
    label.inside = inside;
    label.hover = row.hover;
    label.about = row.about;
    scene.add(std::move(label));
}

RowGrid fit_grid(const std::vector<Row>& rows, double width, double widest) {
    RowGrid grid;
    for (const Row& row : rows) grid.cell = std::max(grid.cell, width_of(row));
    grid.cell = std::ceil(std::min({grid.cell, widest, width})) + gap;
    const double fitting = std::floor((width + gap) / grid.cell);
    grid.columns =
        std::clamp<std::size_t>(static_cast<std::size_t>(std::max(fitting, 1.0)), 1, std::max<std::size_t>(rows.size(), 1));
    grid.rows = (rows.size() + grid.columns - 1) / grid.columns;
    return grid;
}

void add_grid(Scene& scene, const std::vector<Row>& rows, const RowGrid& grid, Point top_left, std::uint32_t inside) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double column = static_cast<double>(i / std::max<std::size_t>(grid.rows, 1));
        const double line = static_cast<double>(i % std::max<std::size_t>(grid.rows, 1));
        add_row(scene, rows[i], {top_left.x + column * grid.cell, top_left.y + line * row_height}, grid.cell - gap, inside);
    }
}

std::vector<std::string> broken(std::string_view text, double size, double width) {
    std::vector<std::string> lines;
    double used = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string word = cut_in_middle(text.substr(at, end - at), size, width);
        const double more = width_of(word, size);
        if (lines.empty() || used + size * 0.6 + more > width) {
            lines.push_back(word);
            used = more;
        } else {
            lines.back() += " " + word;
            used += size * 0.6 + more;
        }
        at = end + 1;
    }
    return lines;
}

double add_lines(Scene& scene, const std::vector<std::string>& lines, Point top_left, const Label& like) {
    double y = top_left.y;
    for (const std::string& line : lines) {
        Label label = like;
        label.at = {top_left.x, y + baseline};
        label.words = line;
        scene.add(std::move(label));
        y += row_height;
    }
    return y - top_left.y;
}

Label label_at(double x, double top, std::string words, Tone tone, bool bold) {
    Label label;
    label.at = {x, top + baseline};
    label.words = std::move(words);
    label.size = row_size;
    label.tone = tone;
    label.bold = bold;
    return label;
}

std::vector<LegendEntry> legend_of(const std::vector<Row>& rows, const Scene& scene) {
    std::vector<LegendEntry> entries;
    auto explain = [&](Row row, std::string_view text) {
        LegendEntry entry;
        row.words.clear(), row.note.clear();
        entry.sample.width = sign_width, entry.sample.height = row_height;
        add_row(entry.sample, row, {0, 0}, sign_width);
        entry.sample.labels.clear();
        entry.text = std::string(text);
        entries.push_back(std::move(entry));
    };
    for (Row::Sign sign : {Row::Sign::control, Row::Sign::mechanism, Row::Sign::deform, Row::Sign::control_deform,
                           Row::Sign::group, Row::Sign::property}) {
        const bool is_box = std::any_of(scene.nodes.begin(), scene.nodes.end(), [&](const Node& node) {
            return sign == sign_of(node.box.shape) && meaning_of(sign) == shape_names[static_cast<std::size_t>(node.box.shape)];
        });
        if (!is_box && std::any_of(rows.begin(), rows.end(), [&](const Row& row) { return row.sign == sign && !row.hatched; }))
            explain({.sign = sign}, meaning_of(sign));
    }
    if (std::any_of(rows.begin(), rows.end(), [](const Row& row) { return row.hatched; }))
        explain({.sign = Row::Sign::deform, .hatched = true}, "deform bone, not attached");
    return entries;
}

Mark moves_mark(Point middle) {
    const double x = middle.x, y = middle.y;
    return {polygon_path(
                {{x - 9, y - 2}, {x + 1, y - 2}, {x + 1, y - 6}, {x + 9, y}, {x + 1, y + 6}, {x + 1, y + 2}, {x - 9, y + 2}}),
            {x - 9, y - 6, 18, 12},
            Mark::Look::quiet,
            {},
            {}};
}

void fit_scene(Scene& scene, Room room) {
    double width = 0, height = 0;
    auto hold = [&](const Rect& rect) {
        width = std::max(width, rect.right() + 1), height = std::max(height, rect.bottom() + 1);
    };
    for (const Backdrop& backdrop : scene.backdrops) hold(backdrop.rect);
    for (const Node& node : scene.nodes) hold(node.rect);
    for (const Label& label : scene.labels) hold(label.extent());
    for (const Mark& mark : scene.marks) hold(mark.extent);
    scene.width = std::min(width, room.width), scene.height = std::min(height, room.height);
}

void number_sheets(std::vector<Sheet>& sheets, const Subject& subject, const std::string& name, const std::string& title) {
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        sheets[i].name = i == 0 ? name : name + "-" + std::to_string(i + 1);
        sheets[i].title = title;
        if (sheets.size() > 1) sheets[i].title += " (" + std::to_string(i + 1) + " of " + std::to_string(sheets.size()) + ")";
        sheets[i].in_state = !subject.facts.is_default_state;
    }
}

std::string drawable_title(const Subject& subject, std::string_view what) {
    return drawable(subject.rig.name) + ": " + std::string(what);
}

std::string file_word(std::string_view name) {
    std::string word;
    for (const char c : name.substr(0, 40)) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
        if (plain || word.empty() || word.back() != '_') word += plain ? c : '_';
    }
    return word;
}

}  // namespace ligament
