// How does the body look from one side? Bones as strokes and signs, rings on what is found, names where there is room.
#include <algorithm>
#include <cmath>
#include <optional>
#include <unordered_set>

#include "lists.hpp"
#include "shapes.hpp"
#include "text.hpp"
#include "view_body.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double ring = 8, disc = 8.5, cell = 6, name_size_here = 9.5;
constexpr double shortest_stroke = 3;

Mark::Look look_of(const Bone& bone) {
    if (bone.control) return bone.deform ? Mark::Look::both : Mark::Look::control;
    return bone.deform ? Mark::Look::deform : Mark::Look::mechanism;
}

std::string line_path(Point a, Point b) {
    return "M" + svg_number(a.x) + " " + svg_number(a.y) + "L" + svg_number(b.x) + " " + svg_number(b.y);
}

std::string tapered(Point a, Point b) {
    const double length = std::hypot(b.x - a.x, b.y - a.y), wide = std::clamp(length * 0.09, 1.6, 3.2), narrow = 0.7;
    const Point across{-(b.y - a.y) / length, (b.x - a.x) / length};
    return polygon_path({{a.x + across.x * wide, a.y + across.y * wide},
                         {b.x + across.x * narrow, b.y + across.y * narrow},
                         {b.x - across.x * narrow, b.y - across.y * narrow},
                         {a.x - across.x * wide, a.y - across.y * wide}});
}

/// The box of a role, as small as a dot.
std::string dot(const Bone& bone, Point at) {
    if (bone.control) {
        constexpr double half = 4, cut = 2.2;
        return polygon_path({{at.x - half + cut, at.y - half},
                             {at.x + half - cut, at.y - half},
                             {at.x + half, at.y - half + cut},
                             {at.x + half, at.y + half - cut},
                             {at.x + half - cut, at.y + half},
                             {at.x - half + cut, at.y + half},
                             {at.x - half, at.y + half - cut},
                             {at.x - half, at.y - half + cut}});
    }
    const double half = bone.deform ? 2.4 : 1.7;
    return rect_path({at.x - half, at.y - half, 2 * half, 2 * half});
}

Rect around(Point a, Point b, double margin) {
    return {std::min(a.x, b.x) - margin, std::min(a.y, b.y) - margin, std::abs(a.x - b.x) + 2 * margin,
            std::abs(a.y - b.y) + 2 * margin};
}

/// How much of what is drawn lies where, and what is taken by words and rings.
struct Ground {
    Rect rect;
    std::size_t columns, rows;
    std::vector<std::uint16_t> weight;
    std::vector<Rect> taken;

    explicit Ground(const Rect& of)
        : rect(of),
          columns(static_cast<std::size_t>(of.width / cell) + 1),
          rows(static_cast<std::size_t>(of.height / cell) + 1),
          weight(columns * rows) {}

    template <class Visit>
    void each_cell(const Rect& r, Visit visit) {
        auto place = [](double value, std::size_t count) {
            return value <= 0 ? std::size_t{0} : std::min(count - 1, static_cast<std::size_t>(value / cell));
        };
        for (std::size_t y = place(r.y - rect.y, rows); y <= place(r.bottom() - rect.y, rows); ++y)
            for (std::size_t x = place(r.x - rect.x, columns); x <= place(r.right() - rect.x, columns); ++x)
                visit(weight[y * columns + x]);
    }
    void draw(Point a, Point b) {
        const double length = std::hypot(b.x - a.x, b.y - a.y), steps = std::ceil(length / cell) + 1;
        for (double s = 0; s <= steps; ++s) {
            const Point at{a.x + (b.x - a.x) * s / steps, a.y + (b.y - a.y) * s / steps};
            each_cell({at.x, at.y, 0, 0}, [](std::uint16_t& w) { w = static_cast<std::uint16_t>(std::min(w + 1, 999)); });
        }
    }
    std::optional<double> cost(const Rect& r) {
        if (!rect.contains(r)) return std::nullopt;
        if (std::any_of(taken.begin(), taken.end(), [&](const Rect& other) { return other.overlaps(r); })) return std::nullopt;
        double sum = 0;
        each_cell(r, [&](std::uint16_t w) { sum += std::min<double>(w, 6); });
        return sum;
    }
    /// The middle of a free place of that size near `at`, the one that covers least.
    std::optional<Point> find(Point at, Size size, double nearest, double farthest) {
        constexpr int directions = 16;
        std::optional<Point> best;
        double least = 0;
        for (double far = nearest; far <= farthest; far += 9)
            for (int d = 0; d < (far < 1 ? 1 : directions); ++d) {
                const double angle = (d + 0.5) * 2 * 3.14159265358979 / directions;
                const Point middle{
                    at.x + std::cos(angle) * (far + size.width / 2 * std::abs(std::cos(angle)) * (nearest > 0 ? 1 : 0)),
                    at.y + std::sin(angle) * far};
                const std::optional<double> covered =
                    cost({middle.x - size.width / 2, middle.y - size.height / 2, size.width, size.height});
                if (!covered) continue;
                const double total = *covered + far * 0.15;
                if (best && total >= least - 1e-9) continue;
                best = middle, least = total;
            }
        return best;
    }
    void take(Point middle, Size size) {
        constexpr double air = 1.5;
        taken.push_back(
            {middle.x - size.width / 2 - air, middle.y - size.height / 2 - air, size.width + 2 * air, size.height + 2 * air});
    }
};

struct PanelArtist {
    Scene& scene;
    const Body& body;
    const Panel& panel;
    Ground ground;
    std::unordered_set<std::string> in_bulk{};
    std::vector<Mark> bulk{};  // by Look, where all bones of a look are one mark

    Point base(BoneId bone) const { return panel.at(body.places[bone].base); }
    Point tip(BoneId bone) const { return body.places[bone].has_tip ? panel.at(body.places[bone].tip) : base(bone); }
    const Bone& bone_at(BoneId bone) const { return body.subject.rig.bones[bone]; }

    std::string hover(BoneId bone) const {
        std::string text = hover_of(body.subject, bone);
        if (body.sharing[bone]) text += "\n" + number_of(body.sharing[bone], "more bone") + " in the same place";
        return text;
    }

    void add_mark(std::string path, const Rect& extent, Mark::Look look, BoneId bone) {
        if (!body.in_bulk) {
            scene.marks.push_back({std::move(path), extent, look, hover(bone), {About::Kind::bone, bone}});
            return;
        }
        if (!in_bulk.insert(path).second) return;  // the same place again
        for (Mark& mark : bulk)
            if (mark.look == look) {
                mark.path += path;
                return;
            }
        bulk.push_back({std::move(path), panel.rect, look, {}, {}});
    }

    void draw_bone(BoneId bone) {
        const Point a = base(bone), b = tip(bone);
        const bool is_long = std::hypot(b.x - a.x, b.y - a.y) >= shortest_stroke;
        const Bone& it = bone_at(bone);
        if (is_long && it.deform)
            add_mark(tapered(a, b), around(a, b, 4), look_of(it), bone);
        else if (is_long && it.is_mechanism())
            add_mark(line_path(a, b), around(a, b, 1), Mark::Look::line, bone);
        if (!is_long || !it.deform || it.control) add_mark(dot(it, a), around(a, a, 5), look_of(it), bone);
        ground.draw(a, it.control && !it.deform ? a : b);
    }

    /// Mechanism below deform bones, controls above all.
    void draw_bones() {
        for (const Mark::Look now : {Mark::Look::mechanism, Mark::Look::deform, Mark::Look::both, Mark::Look::control})
            for (BoneId bone : body.shown)
                if (look_of(bone_at(bone)) == now) draw_bone(bone);
        for (Mark& mark : bulk) scene.marks.push_back(std::move(mark));
    }

    void draw_rings() {
        for (const BodyFinding& finding : body.findings) {
            if (!body.places[finding.bone].is_known) continue;
            const Point at = base(finding.bone);
            const Rect extent = around(at, at, ring + 1);
            const auto look = finding.unattached ? Mark::Look::hatch
                              : finding.alarming ? Mark::Look::alarm_line
                                                 : Mark::Look::line;
            scene.marks.push_back({disc_path(at, ring), extent, look, hover(finding.bone), {About::Kind::bone, finding.bone}});
            ground.each_cell(extent, [](std::uint16_t& w) { w = 6; });
        }
    }

    void number_findings() {
        std::vector<std::pair<std::size_t, Point>> numbered;
        for (std::size_t i = 0; i < std::min(body.findings.size(), most_numbered); ++i) {
            const BodyFinding& finding = body.findings[i];
            if (!body.places[finding.bone].is_known) continue;
            const Point at = base(finding.bone);
            const std::optional<Point> middle = ground.find(at, {2 * disc, 2 * disc}, ring + disc + 3, 110);
            if (!middle) continue;
            ground.take(*middle, {2 * disc, 2 * disc});
            const double length = std::hypot(middle->x - at.x, middle->y - at.y);
            const Point from{at.x + (middle->x - at.x) * ring / length, at.y + (middle->y - at.y) * ring / length};
            scene.marks.push_back({line_path(from, *middle), around(from, *middle, 1), Mark::Look::line, {}, {}});
            numbered.emplace_back(i, *middle);
        }
        for (const auto& [i, middle] : numbered) {
            const BoneId bone = body.findings[i].bone;
            scene.marks.push_back(
                {disc_path(middle, disc), around(middle, middle, disc), Mark::Look::ink, hover(bone), {About::Kind::bone, bone}});
            Label label;
            label.words = std::to_string(i + 1);
            label.size = name_size_here;
            label.at = {middle.x, middle.y + 3.3};
            label.align = Align::middle;
            label.tone = Tone::on_ink;
            label.bold = true;
            label.hover = hover(bone);
            label.about = {About::Kind::bone, bone};
            scene.add(std::move(label));
        }
    }

    std::vector<bool> name_groups() {
        const std::vector<std::string>& groups = body.subject.groups;
        std::vector<Point> sums(groups.size());
        std::vector<double> counts(groups.size());
        for (BoneId bone : body.shown) {
            const std::uint32_t g = body.subject.group_of[bone];
            const Point at = base(bone);
            sums[g].x += at.x, sums[g].y += at.y, ++counts[g];
        }
        std::vector<bool> named(groups.size());
        for (std::uint32_t g = 0; g < groups.size(); ++g) {
            if (groups[g].empty() || counts[g] < 1) continue;
            Label label;
            label.words = cut_in_middle(drawable(groups[g]), name_size_here, 110);
            const Size size{width_of(label.words, name_size_here) + 4, 12};
            const Point middle{sums[g].x / counts[g], sums[g].y / counts[g]};
            const std::optional<Point> place = ground.find(middle, size, 0, 63);
            if (!place) continue;
            ground.take(*place, size);
            label.at = {place->x, place->y + 3.3};
            label.size = name_size_here;
            label.align = Align::middle;
            label.tone = Tone::quiet;
            label.plate = true;
            label.hover = "group " + isolated(drawable(groups[g]));
            label.about = {About::Kind::group, g};
            scene.add(std::move(label));
            named[g] = true;
        }
        return named;
    }
};

}  // namespace

Point Panel::at(const Vector3& point) const {
    const Point flat = project(point, side);
    return {rect.centre().x + (flat.x - centre.x) * scale, rect.centre().y + (flat.y - centre.y) * scale};
}

std::vector<bool> add_panel(Scene& scene, const Body& body, const Panel& panel) {
    PanelArtist artist{scene, body, panel, Ground(panel.rect)};
    artist.draw_bones();
    artist.draw_rings();
    artist.number_findings();
    return artist.name_groups();
}

}  // namespace ligament
