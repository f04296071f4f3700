// What stands on the card of a group, and how large must it be?
#include "view_plan_cards.hpp"

#include <algorithm>
#include <cmath>

#include "style.hpp"
#include "text.hpp"

namespace ligament {

namespace {

constexpr double pad = 9, top = 6, name_pitch = 15, pitch = 13, above_needs = 7, bottom = 6;
constexpr double heading = 11.5, small = 9.5;  // font sizes
constexpr double sign_size = 8, sign_gap = 3, between = 9, least_between = 4;
constexpr double longest_name = 150;  // px that wide_enough grants to a name
constexpr double least_name = 34;     // px under which counts are shortened rather than the name

constexpr double slant = 9;  // of the sides of an object

double side_of(const Card& card) {
    return pad + (card.has_frame() ? alarm_frame : 0) + (card.box.shape == Shape::object ? slant : 0);
}
double top_of(const Card& card) { return card.has_frame() ? top + alarm_frame : top; }

struct Role {
    std::size_t count;
    Mark::Look look;
    std::string_view word;
};

std::vector<Role> roles_of(const Card& card) {
    std::vector<Role> roles;
    for (const Role& role :
         {Role{card.tally.control, Mark::Look::control, "control"},
          Role{card.tally.mechanism, Mark::Look::mechanism, "mechanism"}, Role{card.tally.deform, Mark::Look::deform, "deform"},
          Role{card.tally.both, Mark::Look::both, "control + deform"}})
        if (role.count > 0) roles.push_back(role);
    return roles;
}

std::string role_text(const Role& role, bool words) {
    return std::to_string(role.count) + (words ? " " + std::string(role.word) : "");
}

double width_of_roles(const Card& card, bool words, double apart = between) {
    double width = 0;
    for (const Role& role : roles_of(card))
        width += (width > 0 ? apart : 0) + sign_size + sign_gap + width_of(role_text(role, words), small);
    return width;
}

double rows_above_needs(const Card& card) { return static_cast<double>((card.tally.bones() > 0 ? 1 : 0) + card.lines.size()); }

std::string pill_path(const Rect& r) {
    const std::vector<Point> corners{{r.x + 2.5, r.y},
                                     {r.right() - 2.5, r.y},
                                     {r.right(), r.y + 2.5},
                                     {r.right(), r.bottom() - 2.5},
                                     {r.right() - 2.5, r.bottom()},
                                     {r.x + 2.5, r.bottom()},
                                     {r.x, r.bottom() - 2.5},
                                     {r.x, r.y + 2.5}};
    return polygon_path(corners);
}

/// Writes the lines of one card from top to bottom.
struct Writer {
    Scene& scene;
    const Card& card;
    Rect rect;
    std::uint32_t node;
    double left, right, y;

    Label label(double x, std::string words, double size, Tone tone) const {
        return Label{.at = {x, y}, .words = std::move(words), .size = size, .tone = tone, .inside = node};
    }

    void name() {
        y += heading - 0.5;
        Label made = label(left, cut_in_middle(card.name, heading, right - left), heading, Tone::ink);
        made.bold = true, made.hover = card.box.hover, made.about = card.about;
        scene.add(std::move(made));
        y += name_pitch - heading + 0.5;
    }

    void roles(bool words) {
        if (card.tally.bones() == 0) return;
        y += small;
        words = words && width_of_roles(card, true) <= right - left;
        const double apart = width_of_roles(card, words) <= right - left ? between : least_between;
        double x = left;
        for (const Role& role : roles_of(card)) {
            const std::string text = role_text(role, words);
            scene.signs.push_back(role_sign(role.look, {x, y - sign_size + 0.6}));
            scene.add(label(x + sign_size + sign_gap, text, small, Tone::quiet));
            x += sign_size + sign_gap + width_of(text, small) + apart;
        }
        y += pitch - small;
    }

    void line(const CardLine& what) {
        y += small;
        double x = left;
        if (what.is_switch) {
            const Rect pill{x, y - 6.6, sign_size, 6};
            scene.signs.push_back({.path = pill_path(pill), .extent = pill, .look = Mark::Look::line});
            x += sign_size + sign_gap;
        }
        const double beside = width_of(what.right, small) + 8;
        const bool has_right = !what.right.empty() && right - x - beside >= std::min(longest_name, width_of(what.left, small));
        Label made = label(x, cut_in_middle(what.left, small, right - x - (has_right ? beside : 0)), small, what.tone);
        made.hover = what.hover, made.about = what.about, made.bold = what.tone == Tone::alarm;
        scene.add(std::move(made));
        if (has_right) {
            Label stops = label(right, what.right, small, Tone::quiet);
            stops.align = Align::end, stops.hover = what.hover;
            scene.add(std::move(stops));
        }
        y += pitch - small;
    }

    void rule() {
        const Rect extent{rect.x + side_of(card) - 3, y + 2.5, rect.width - 2 * side_of(card) + 6, 0.1};
        scene.signs.push_back({.path = polygon_path({{extent.x, extent.y}, {extent.right(), extent.y}}),
                               .extent = extent,
                               .look = Mark::Look::line});
        y += above_needs;
    }

    void need(const NeedRow& row, bool words) {
        y += small;
        const double room = right - left - 8;
        const std::string* counts = words ? &row.counts.words : &row.counts.letters;
        const double wanted = row.needs.size() > 1 ? width_of(row.name, small) : std::min(least_name, width_of(row.name, small));
        if (width_of(*counts, small) + wanted > room) counts = &row.counts.letters;
        if (width_of(*counts, small) + wanted > room) counts = &row.counts.total;
        Label made = label(left, cut_in_middle(row.name, small, room - width_of(*counts, small)), small,
                           row.alarm ? Tone::alarm : Tone::ink);
        made.hover = row.hover, made.about = row.about, made.bold = row.alarm;
        scene.add(std::move(made));
        Label number = label(right, *counts, small, Tone::quiet);
        number.align = Align::end, number.hover = row.hover;
        scene.add(std::move(number));
        y += pitch - small;
    }
};

}  // namespace

double height_of(const Card& card) {
    double height = top_of(card) + name_pitch + pitch * rows_above_needs(card) + bottom + (card.has_frame() ? alarm_frame : 0);
    if (!card.needs.empty()) height += above_needs + pitch * static_cast<double>(card.needs.size());
    return std::ceil(height);
}

double inlet_of(const Card& card, std::size_t row) {
    return top_of(card) + name_pitch + pitch * (rows_above_needs(card) + static_cast<double>(row)) + above_needs + small - 3.3;
}

double indent_of_inlet(const Card& card, std::size_t row) {
    return card.box.shape == Shape::object ? slant * (1 - inlet_of(card, row) / height_of(card)) : 0;
}

double least_width(const Card& card) {
    constexpr double least = 66;
    double width = std::max(least, width_of_roles(card, false, least_between));
    for (const CardLine& line : card.lines)
        if (line.tone != Tone::ink || line.is_verdict) width = std::max(width, width_of(line.left, small));
    for (const NeedRow& row : card.needs) {
        const double name = width_of(row.name, small);
        const bool one_kind = row.counts.letters.find(' ') == std::string::npos;
        width = std::max(width, (row.needs.size() > 1 ? name : std::min(least_name, name)) + 8 +
                                    width_of(one_kind ? row.counts.letters : row.counts.total, small));
    }
    return std::ceil(width + 2 * side_of(card));
}

double wide_enough(const Card& card, bool words) {
    double width = std::max(width_of_roles(card, words), std::min(longest_name, width_of(card.name, heading)));
    for (const CardLine& line : card.lines) {
        const double right = line.right.empty() ? 0 : 8 + width_of(line.right, small);
        const double sign = line.is_switch ? sign_size + sign_gap : 0;
        width = std::max(width, sign + std::min(longest_name, width_of(line.left, small)) + (words ? right : 0));
    }
    for (const NeedRow& row : card.needs)
        width = std::max(width, std::min(longest_name, width_of(row.name, small)) + 8 +
                                    width_of(words ? row.counts.words : row.counts.letters, small));
    return std::ceil(width + 2 * side_of(card));
}

std::uint32_t add_card(Scene& scene, const Card& card, const Rect& rect, const CardStyle& style) {
    const std::uint32_t node = scene.add(Node{.rect = rect, .box = card.box, .about = card.about});
    const double side = side_of(card);
    Writer writer{scene, card, rect, node, rect.x + side, rect.right() - side, rect.y + top_of(card)};
    writer.name();
    writer.roles(style.words);
    for (const CardLine& line : card.lines) writer.line(line);
    if (!card.needs.empty()) writer.rule();
    for (const NeedRow& row : card.needs) writer.need(row, style.words);
    return node;
}

Mark role_sign(Mark::Look look, Point at) {
    const Rect r{at.x, at.y, sign_size, sign_size};
    constexpr double cut = 2.4;
    std::string path;
    if (look == Mark::Look::control || look == Mark::Look::both)
        path = polygon_path({{r.x + cut, r.y},
                             {r.right() - cut, r.y},
                             {r.right(), r.y + cut},
                             {r.right(), r.bottom() - cut},
                             {r.right() - cut, r.bottom()},
                             {r.x + cut, r.bottom()},
                             {r.x, r.bottom() - cut},
                             {r.x, r.y + cut}});
    else
        path = rect_path(r);
    if (look == Mark::Look::deform || look == Mark::Look::both)
        path += polygon_path({{r.x + (look == Mark::Look::both ? cut : 0), r.bottom() - 2.2},
                              {r.right() - (look == Mark::Look::both ? cut : 0), r.bottom() - 2.2}});
    return {.path = path, .extent = r, .look = look};
}

}  // namespace ligament
