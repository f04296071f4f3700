// Where are the bones at rest?
#include "view_body.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lists.hpp"
#include "shapes.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double list_width = 290, gap = 26, title_height = 18, foot = 16, margin = 24, narrowest_panel = 104;

/// Extent of what is drawn along x, y and z.
struct Extent {
    Vector3 low{}, high{};

    double along(std::size_t axis) const { return high[axis] - low[axis]; }
    Vector3 centre() const {
        Vector3 middle{};
        for (std::size_t i = 0; i < 3; ++i) middle[i] = low[i] / 2 + high[i] / 2;
        return middle;
    }
};

Extent extent_of(const Body& body) {
    Extent extent;
    bool first = true;
    auto add = [&](const Vector3& at) {
        for (std::size_t i = 0; i < 3; ++i) {
            extent.low[i] = first ? at[i] : std::min(extent.low[i], at[i]);
            extent.high[i] = first ? at[i] : std::max(extent.high[i], at[i]);
        }
        first = false;
    };
    for (BoneId bone : body.shown) {
        add(body.places[bone].base);
        if (body.places[bone].has_tip) add(body.places[bone].tip);
    }
    return extent;
}

/// px per metre at which something so large fits, where anything does.
double fitting(double px, double metres) {
    return metres > 0 ? std::max(px, 20.0) / metres : std::numeric_limits<double>::infinity();
}

/// Front and side beside each other, the top view behind them or below the front: as it comes out larger.
struct Arrangement {
    double scale = 1;
    bool in_a_row = true;
    Extent extent;

    Arrangement(const Extent& of, Room room) : extent(of) {
        const double x = of.along(0), y = of.along(1), z = of.along(2), frame = title_height + 2 * margin;
        const double row =
            std::min(fitting(room.width - 6 * margin - 2 * gap, x + z + x), fitting(room.height - frame - foot, std::max(y, z)));
        const double stacked = std::min(fitting(room.width - 4 * margin - gap, std::max(x + z, x)),
                                        fitting(room.height - 2 * frame - foot - gap / 2, y + z));
        in_a_row = row >= stacked;
        scale = std::max(row, stacked);
        if (!std::isfinite(scale)) scale = 100;                      // all in one point
        for (int i = 0; i < 200 && !fits(room); ++i) scale *= 0.97;  // panels have a least width
    }
    Size size(double x, double y) const { return {std::max(x * scale + 2 * margin, narrowest_panel), y * scale + 2 * margin}; }
    bool fits(Room room) const {
        const std::vector<Panel> all = panels();
        return std::all_of(all.begin(), all.end(), [&](const Panel& panel) {
            return panel.rect.right() <= room.width && panel.rect.bottom() + foot <= room.height;
        });
    }
    std::vector<Panel> panels() const {
        const double x = extent.along(0), y = extent.along(1), z = extent.along(2);
        const Size front = size(x, y), side = size(z, y), top = size(x, z);
        const Point below{0, title_height + front.height + gap / 2}, behind{front.width + side.width + 2 * gap, 0};
        const Point third = in_a_row ? behind : below;
        auto panel = [&](Side which, Size size, Point at) {
            const Point middle = project(extent.centre(), which);
            return Panel{which, {at.x, at.y + title_height, size.width, size.height}, middle, scale};
        };
        return {panel(Side::front, front, {0, 0}), panel(Side::side, side, {front.width + gap, 0}), panel(Side::top, top, third)};
    }
};

void add_title(Scene& scene, const Panel& panel) {
    static constexpr std::array<std::string_view, 3> words{"front, from +z", "side, from +x", "top, from +y"};
    static constexpr std::array<std::array<std::string_view, 2>, 3> axes{
        {{"x right", "y up"}, {"z left", "y up"}, {"x right", "z down"}}};
    const auto which = static_cast<std::size_t>(panel.side);
    Label title;
    title.at = {panel.rect.x + 2, panel.rect.y - 6};
    title.words = std::string(words[which]);
    title.bold = true;
    const double used = width_of(title.words, title.size) + 10;
    Label axis;
    axis.at = {panel.rect.x + 2 + used, panel.rect.y - 6};
    axis.words = std::string(axes[which][0]) + ", " + std::string(axes[which][1]);
    axis.size = 9.5;
    axis.tone = Tone::quiet;
    scene.backdrops.push_back({panel.rect, Backdrop::Look::frame, 4, {}, {}});
    // Narrow views name their axes in the hover title of the first words alone.
    title.hover = axis.words;
    if (title.words.size() + axis.words.size() > 0 && axis.extent().right() <= panel.rect.right()) scene.add(std::move(axis));
    scene.add(std::move(title));
}

/// 1, 2 or 5 times a power of ten, at least `least`.
double round_length(double least) {
    const double power = std::pow(10.0, std::floor(std::log10(least)));
    for (double factor : {1.0, 2.0, 5.0})
        if (factor * power >= least * (1 - 1e-9)) return factor * power;
    return 10 * power;
}

void add_scale_bar(Scene& scene, double scale, double y) {
    const double metres = round_length(60 / scale), length = metres * scale;
    const Rect bar{4, y + 6, length, 4};
    scene.marks.push_back({rect_path(bar) + rect_path({4, y + 3, 1.2, 10}) + rect_path({2.8 + length, y + 3, 1.2, 10}),
                           {bar.x, y + 3, length, 10},
                           Mark::Look::ink,
                           plain_number(metres) + " m",
                           {}});
    Label label;
    label.at = {bar.right() + 8, y + 12};
    label.words = plain_number(metres) + " m";
    scene.add(std::move(label));
}

Sheet sheet_without_rest(const Subject& subject, Room room) {
    Sheet sheet;
    std::vector<Said> lines;
    auto say = [&](std::string words, double size, bool bold) {
        Said line;
        line.words = std::move(words);
        line.size = size, line.bold = bold, line.before = 8;
        lines.push_back(std::move(line));
    };
    say("there is nothing to place: " +
            (subject.rig.bones.size() == 1
                 ? std::string("the one bone has no rest transform")
                 : "none of the " + std::to_string(subject.rig.bones.size()) + " bones has a rest transform"),
        14, true);
    say("A bone is given one by \"rest\": {\"translation\": [x, y, z], \"rotation\": [x, y, z, w], \"scale\": [x, y, z]}, local "
        "to "
        "its parent, as glTF 2.0 has it: metres, right-handed, +Y up, the rotation as a quaternion.",
        11, false);
    say("\"tip\": [x, y, z], in the bone's own space, says where it ends.", 11, false);
    const double width = std::min(room.width, 640.0);
    const Filled filled = fill_column(sheet.scene, {0, 0, width, room.height}, lines, 0);
    sheet.scene.width = width, sheet.scene.height = filled.bottom + 4;
    sheet.subtitle = {number_of(subject.rig.bones.size(), "bone") + ", none with a rest transform"};
    return sheet;
}

std::vector<std::string> subtitle_of(const Body& body) {
    const Rig& rig = body.subject.rig;
    std::string counts =
        "at rest, one scale; showing " + std::to_string(body.shown.size()) + " of " + number_of(rig.bones.size(), "bone");
    if (body.left_out)
        counts += ": of more than 400 bones only deform bones, controls and what is listed, not the other " +
                  std::to_string(body.left_out);
    if (body.unknown) counts += "; " + number_of(body.unknown, "bone") + " beyond 1e100 m";
    std::vector<std::string> lines{counts};
    std::string more;
    auto say = [&](const std::string& words) { more += (more.empty() ? "" : "; ") + words; };
    if (body.without_rest) say(number_of(body.without_rest, "bone") + " without a rest transform: drawn where the parent stands");
    if (body.shared_places) say(number_of(body.shared_places, "place") + " shared by several bones (told in the hover title)");
    if (body.in_bulk) say("too many bones for hover titles of their own");
    if (!more.empty()) lines.push_back(more);
    return lines;
}

LegendEntry sample(std::string text) {
    LegendEntry entry{{}, std::move(text)};
    entry.sample.width = 44, entry.sample.height = 18;
    return entry;
}

void add_legend(Sheet& sheet, const Body& body) {
    bool hatched = false, ringed = false, carried = false;
    for (const BodyFinding& finding : body.findings) {
        hatched = hatched || finding.unattached;
        ringed = ringed || (!finding.unattached && finding.alarming);
        carried = carried || (!finding.unattached && !finding.alarming);
    }
    auto add = [&](const std::string& path, Mark::Look look, std::string text) {
        sheet.legend.push_back(sample(std::move(text)));
        sheet.legend.back().sample.marks.push_back({path, {0, 0, 44, 18}, look, {}, {}});
    };
    auto occurs = [&](auto is) {
        return std::any_of(body.shown.begin(), body.shown.end(), [&](BoneId bone) { return is(body.subject.rig.bones[bone]); });
    };
    if (occurs([](const Bone& bone) { return bone.deform; }))
        add(polygon_path({{3, 6}, {41, 8.3}, {41, 9.7}, {3, 12}}), Mark::Look::deform, "deform bone, from base to tip");
    if (occurs([](const Bone& bone) { return bone.control; }))
        add(polygon_path({{20, 5}, {24, 5}, {26, 7}, {26, 11}, {24, 13}, {20, 13}, {18, 11}, {18, 7}}), Mark::Look::control,
            "control bone");
    if (occurs([](const Bone& bone) { return bone.is_mechanism(); })) {
        add("M4 9H40", Mark::Look::line, "mechanism bone, its base a square");
        sheet.legend.back().sample.marks.push_back(
            {rect_path({2.3, 7.3, 3.4, 3.4}), {0, 0, 44, 18}, Mark::Look::mechanism, {}, {}});
    }
    if (hatched) add(disc_path({22, 9}, 7), Mark::Look::hatch, "hatched: no control of its own moves it");
    if (ringed) add(disc_path({22, 9}, 7), Mark::Look::alarm_line, "ringed: in a cycle, or lost in a state");
    if (carried) add(disc_path({22, 9}, 7), Mark::Look::line, "thin ring: only rides on its deform parent");
}

/// The list beside the picture, and on further sheets what does not fit there.
void add_list(std::vector<Sheet>& sheets, const std::vector<Said>& words, Size picture, Room room) {
    Scene& scene = sheets.back().scene;
    scene.width = picture.width, scene.height = picture.height;
    if (words.empty()) return;
    const double width = room.width - picture.width - gap;
    Filled filled = fill_column(scene, {picture.width + gap, 0, std::min(width, 420.0), room.height}, words, 0);
    scene.width = picture.width + gap + std::min(width, 420.0);
    scene.height = std::max(picture.height, filled.bottom);
    while (filled.next < words.size()) {
        Scene& more = sheets.emplace_back().scene;
        filled = fill_columns(more, {0, 0, room.width, room.height}, list_width, words, filled.next);
        more.width = room.width, more.height = filled.bottom;
    }
}

}  // namespace

std::vector<Sheet> plan_of_body(const Subject& subject, std::uint32_t, Room room) {
    std::vector<Sheet> sheets;
    const std::string title = "the body of rig " + isolated(drawable(subject.rig.name));
    const bool any =
        std::any_of(subject.rig.bones.begin(), subject.rig.bones.end(), [](const Bone& bone) { return bone.rest.has_value(); });
    if (!any) {
        sheets.push_back(sheet_without_rest(subject, room));
        number_sheets(sheets, subject, "body", title);
        return sheets;
    }
    const Body body(subject);
    const Arrangement arrangement(extent_of(body), {room.width - list_width - gap, room.height});
    Scene& scene = sheets.emplace_back().scene;
    Size picture;
    std::vector<bool> named(subject.groups.size());
    for (const Panel& panel : arrangement.panels()) {
        add_title(scene, panel);
        const std::vector<bool> here = add_panel(scene, body, panel);
        for (std::size_t g = 0; g < named.size(); ++g) named[g] = named[g] || here[g];
        picture = {std::max(picture.width, panel.rect.right()), std::max(picture.height, panel.rect.bottom())};
    }
    add_scale_bar(scene, arrangement.scale, picture.height);
    picture.height += foot;
    add_list(sheets, words_of_body(body, named), picture, room);
    number_sheets(sheets, subject, "body", title);
    for (Sheet& sheet : sheets) sheet.subtitle = subtitle_of(body);
    add_legend(sheets.front(), body);
    return sheets;
}

}  // namespace ligament
