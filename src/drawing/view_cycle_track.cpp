// How is a loop drawn so that it reads at a glance? As a track in rows, there and back, with a number on every edge.
#include "view_cycle.hpp"

#include <algorithm>
#include <cmath>

#include "lists.hpp"
#include "style.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double box_width = 150, disc = 11, head = 9, turn = 34, bend = 16, beak = 9, plate_air = 8, plate_size = 9.5;
constexpr double between_rows = 78, between_two_rows = 104;
constexpr double least_gap = 100;  // between boxes of a row: room for a disc, bars and a head

struct Place {
    double x = 0, row = 0;
};

/// The rows of a track: those of even number run to the right, the others back.
struct Rows {
    std::vector<std::size_t> counts;
    double gap = least_gap, between = between_rows, cell = 0, height = 0, left = 0,
           span = 0;  // of boxes; `left` of the widest row
    bool closed = false;

    double top(std::size_t row) const { return disc + static_cast<double>(row) * (height + between); }
    double middle(std::size_t row) const { return top(row) + height / 2; }
    double right_turn() const { return left + span + turn; }
    double left_turn() const { return left - turn; }
    double return_lane() const { return counts.size() > 2 ? left - 2 * turn : left - turn; }
};

double plate_width(const CutSign& sign) { return width_of(sign.words(), plate_size) + 2 * plate_air; }

double gap_of(const CycleStory& story) {
    double gap = least_gap;
    for (const std::vector<CutSign>& signs : story.signs)
        for (const CutSign& sign : signs) gap = std::max(gap, plate_width(sign) + 12);
    return gap;
}

Node box_of_end(const CycleStory& story, std::size_t at, const std::string& elsewhere) {
    const std::uint32_t id = story.cycle.witness[at].from;
    Node node;
    if (story.cycle.is_between_properties()) {
        node.box.shape = Shape::property;
        node.box.name = cut_in_middle(story.name_of_end(id), name_size, box_width - 32);
        node.box.word = "property";
        node.box.badges.push_back({Badge::Kind::cycle, ""});
        node.box.hover = "property " + isolated(story.name_of_end(id)) + at_place(story.subject.rig.properties[id].place);
        node.about = {About::Kind::property, id};
    } else {
        node.box = box_of(story.subject, id, box_width);
        for (Badge& badge : node.box.badges)
            if (badge.kind == Badge::Kind::cycle) badge.word.clear();  // the title says which
        node.about = {About::Kind::bone, id};
    }
    if (!elsewhere.empty()) {
        node.faint = true;
        node.box.badges.clear();
        node.box.word = elsewhere;
    }
    const Size size = size_of(node.box);
    node.rect = {0, 0, size.width, size.height};
    return node;
}

std::size_t in_a_row(const CycleStory& story, double width) {
    double widest = 0;
    for (std::size_t i = 0; i < story.cycle.witness.size(); ++i) widest = std::max(widest, box_of_end(story, i, "").rect.width);
    const double gap = gap_of(story), usable = width - 3 * turn - 2 * disc + gap;
    return static_cast<std::size_t>(std::max(1.0, std::floor(usable / (widest + gap))));
}

Rows rows_of(const CycleStory& story, const std::vector<Node>& boxes, bool closed, double width) {
    Rows rows;
    rows.closed = closed;
    const std::size_t most = in_a_row(story, width), count = boxes.size();
    const std::size_t wanted = closed ? 2 * ((count + 2 * most - 1) / (2 * most)) : (count + most - 1) / most;
    const std::size_t number = std::min(wanted, count);
    for (std::size_t r = 0; r < number; ++r) rows.counts.push_back(count / number + (r < count % number ? 1 : 0));
    if (number <= 2) rows.between = between_two_rows;
    double widest = 0;
    for (const Node& box : boxes) {
        widest = std::max(widest, box.rect.width);
        rows.height = std::max(rows.height, box.rect.height);
    }
    rows.gap = gap_of(story);
    rows.cell = widest + rows.gap;
    rows.span = static_cast<double>(rows.counts.front()) * rows.cell - rows.gap;
    const bool has_left_turn = number > 2;
    rows.left = disc + (has_left_turn ? turn : 0) + (closed ? turn : 0);
    return rows;
}

void place_boxes(const Rows& rows, std::vector<Node>& boxes) {
    std::size_t next = 0;
    for (std::size_t r = 0; r < rows.counts.size(); ++r) {
        const std::size_t count = rows.counts[r];
        const double span = static_cast<double>(count) * rows.cell - rows.gap, from = rows.left + (rows.span - span) / 2;
        for (std::size_t i = 0; i < count; ++i, ++next) {
            const double column = static_cast<double>(r % 2 == 0 ? i : count - 1 - i);
            Rect& rect = boxes[next].rect;
            rect.width = rows.cell - rows.gap;
            rect.x = from + column * rows.cell;
            rect.y = rows.middle(r) - rect.height / 2;
        }
    }
}

/// The way of one edge in two parts, with the number between them.
struct Way {
    std::vector<Point> before, after;
    Point number;
    Point cut, along;       ///< where bars stand across the line, and how the line runs there
    double plate_side = 0;  ///< -1, 1: the plate stands left or right of the bars; 0: above them, the second one below
};

Way straight(const Rect& from, const Rect& to) {
    const bool right = from.x < to.x;
    const double a = right ? from.right() : from.x, b = right ? to.x : to.right(), y = from.centre().y;
    const double sense = right ? 1 : -1, middle = (a + b) / 2 - sense * 14;
    Way way;
    way.number = {middle, y};
    way.before = {{a, y}, {middle - sense * disc, y}};
    way.after = {{middle + sense * (disc + beak), y}, {b, y}};
    way.cut = {(middle + sense * (disc + beak) + b - sense * 2 * head) / 2, y};
    way.along = {sense, 0};
    return way;
}

/// Round a turn at `x`, down or up; the number stands at `y`, the cut below it.
Way round(const Rect& from, const Rect& to, double x, double y) {
    const bool at_right = x > from.x;
    const Point a{at_right ? from.right() : from.x, from.centre().y}, b{at_right ? to.right() : to.x, to.centre().y};
    const double sense = b.y > a.y ? 1 : -1;
    Way way;
    way.number = {x, y};
    way.before = {a, {x, a.y}, {x, y - sense * disc}};
    way.after = {{x, y + sense * (disc + beak)}, {x, b.y}, b};
    way.cut = {x, y + sense * (disc + beak + 7)};
    way.along = {0, sense};
    way.plate_side = at_right ? -1 : 1;
    return way;
}

/// From a single box back to itself, below it.
Way around(const Rect& box) {
    const double y = box.bottom() + 30, left = box.x - turn, right = box.right() + turn, middle = box.centre().x;
    Way way;
    way.number = {middle, y};
    way.before = {{box.right(), box.centre().y}, {right, box.centre().y}, {right, y}, {middle + disc, y}};
    way.after = {{middle - disc - beak, y}, {left, y}, {left, box.centre().y}, {box.x, box.centre().y}};
    way.cut = {middle - disc - beak - 10, y};
    way.along = {-1, 0};
    return way;
}

Way way_of(const Rows& rows, const std::vector<Node>& boxes, std::size_t edge) {
    const std::size_t last = boxes.size() - 1, next = edge == last ? 0 : edge + 1;
    const Rect &from = boxes[edge].rect, &to = boxes[next].rect;
    if (edge == next) return around(from);
    std::size_t row = 0, end = rows.counts[0];
    while (edge >= end) end += rows.counts[++row];
    if (edge == last) return round(from, to, rows.return_lane(), (rows.middle(0) + rows.middle(1)) / 2);
    if (edge + 1 < end) return straight(from, to);
    const double y = (rows.middle(row) + rows.middle(row + 1)) / 2;
    return round(from, to, row % 2 == 0 ? rows.right_turn() : rows.left_turn(), y);
}

void add_plate(Scene& scene, const CutSign& sign, const Way& way, bool second, const std::string& hover) {
    Label plate;
    plate.words = sign.words();
    plate.size = plate_size;
    plate.plate = plate.bold = true;
    plate.hover = hover;
    if (way.plate_side != 0) {
        plate.align = way.plate_side < 0 ? Align::end : Align::start;
        plate.at = {way.cut.x + way.plate_side * 16, way.cut.y + 3.5 - (second ? way.along.y * 13 : 0)};
    } else {
        plate.align = Align::middle;
        plate.at = {way.cut.x - way.along.x * 12, way.cut.y + (second ? 27 : -19)};
    }
    scene.add(std::move(plate));
}

std::string hover_of_edge(const CycleStory& story, std::size_t i) {
    const FoldedEdge& edge = story.cycle.witness[i];
    const Rig& rig = story.subject.rig;
    std::string text = std::to_string(i + 1) + ": " + isolated(story.name_of_end(edge.from)) + " -> " +
                       isolated(story.name_of_end(edge.to)) + "\n" + std::string(name_of(edge.kind)) + " " +
                       isolated(drawable(name_of(rig, story.subject.dependencies, edge.maker))) +
                       at_place(place_of(rig, story.subject.dependencies, edge.maker));
    for (MakerId maker : edge.through)
        text += "\nthrough " + isolated(drawable(name_of(rig, story.subject.dependencies, maker))) +
                at_place(place_of(rig, story.subject.dependencies, maker));
    for (const CutSign& sign : story.signs[i]) text += "\n" + sign.words();
    return text;
}

void add_edge(Scene& scene, const CycleStory& story, std::size_t edge, const Way& way, std::uint32_t from, std::uint32_t to) {
    Stroke stroke;
    stroke.kind = story.cycle.witness[edge].kind;
    stroke.cycle = stroke.witness = true;
    stroke.to = to;
    stroke.hover = hover_of_edge(story, edge);
    stroke.about = {About::Kind::cycle, story.index};
    stroke.curve = curve_along(way.after, bend, head);
    scene.strokes.push_back(stroke);
    stroke.from = from, stroke.to = none;
    stroke.headless = true;
    stroke.curve = curve_along(way.before, bend, 0);
    scene.strokes.push_back(stroke);
    add_number(scene, way.number, way.along, edge + 1, stroke.hover);
    bool second = false;
    for (const CutSign& sign : story.signs[edge]) {
        if (!second) add_cut_bars(scene, way.cut, way.along, sign.finer, stroke.hover);
        add_plate(scene, sign, way, second, stroke.hover);
        if (second) break;  // further ones stand in the list
        second = true;
    }
}

struct Boxes {
    std::vector<Node> nodes;
    std::vector<std::size_t> edges;  // of the witness: from each node to the next one
};

Boxes boxes_of(const CycleStory& story, const TrackPart& part) {
    const std::size_t all = story.cycle.witness.size();
    Boxes boxes;
    auto add = [&](std::size_t at, const std::string& elsewhere) {
        boxes.nodes.push_back(box_of_end(story, at, elsewhere));
        boxes.edges.push_back(at);
    };
    if (!part.is_whole) add((part.first + all - 1) % all, part.before);
    for (std::size_t i = 0; i < part.count; ++i) add(part.first + i, "");
    if (!part.is_whole) add((part.first + part.count) % all, part.after);
    return boxes;
}

}  // namespace

void add_number(Scene& scene, Point at, Point along, std::size_t number, const std::string& hover) {
    auto off = [&](double ahead, double aside) {
        return Point{at.x + along.x * ahead - along.y * aside, at.y + along.y * ahead + along.x * aside};
    };
    const std::string pointer = polygon_path({off(disc * 0.6, -disc * 0.75), off(disc + beak, 0), off(disc * 0.6, disc * 0.75)});
    const double reach = disc + beak;
    scene.marks.push_back({disc_path(at, disc) + pointer,
                           {at.x - (along.x < 0 ? reach : disc), at.y - (along.y < 0 ? reach : disc),
                            along.x != 0 ? disc + reach : 2 * disc, along.y != 0 ? disc + reach : 2 * disc},
                           Mark::Look::ink,
                           hover,
                           {}});
    Label label;
    label.words = std::to_string(number);
    label.size = number < 100 ? 13 : number < 1000 ? 10.5 : 9.5;
    label.at = {at.x, at.y + label.size * 0.35};
    label.align = Align::middle;
    label.tone = Tone::on_ink;
    label.bold = true;
    label.hover = hover;
    scene.add(std::move(label));
}

void add_cut_bars(Scene& scene, Point at, Point along, bool finer, const std::string& hover, double reach) {
    constexpr double thick = 1.6, apart = 3.4;
    const double from = finer ? 0 : -apart, to = finer ? 0 : apart;
    std::string path;
    for (double off = from; off <= to; off += 2 * apart) {
        auto corner = [&](double back, double aside) {
            return Point{at.x + along.x * (off + back) - along.y * aside, at.y + along.y * (off + back) + along.x * aside};
        };
        path += polygon_path({corner(-thick, -reach), corner(thick, -reach), corner(thick, reach), corner(-thick, reach)});
    }
    const double half = apart + thick;
    const double w = std::abs(along.x) * half + std::abs(along.y) * reach,
                 h = std::abs(along.y) * half + std::abs(along.x) * reach;
    scene.signs.push_back({path, {at.x - w, at.y - h, 2 * w, 2 * h}, Mark::Look::ink, hover, {}});
}

std::size_t track_capacity(const CycleStory& story, Room room) {
    const double pitch = box_height + 2 * alarm_frame + between_rows;
    const std::size_t most = in_a_row(story, room.width);
    const auto rows = static_cast<std::size_t>(std::max(2.0, std::floor((room.height + between_rows - 2 * disc) / pitch)));
    const std::size_t whole = most * (rows / 2 * 2);
    return story.cycle.witness.size() <= whole ? whole : std::max<std::size_t>(most * rows, 3) - 2;
}

Size add_track(Scene& scene, const CycleStory& story, const TrackPart& part, double width) {
    Boxes boxes = boxes_of(story, part);
    const bool closed = part.is_whole;
    const Rows rows = rows_of(story, boxes.nodes, closed, width);
    place_boxes(rows, boxes.nodes);
    const auto first = static_cast<std::uint32_t>(scene.nodes.size());
    const std::size_t count = boxes.nodes.size();
    for (std::size_t i = 0; i < count - (closed ? 0 : 1); ++i)
        add_edge(scene, story, boxes.edges[i], way_of(rows, boxes.nodes, i), first + static_cast<std::uint32_t>(i),
                 first + static_cast<std::uint32_t>((i + 1) % count));
    for (Node& node : boxes.nodes) scene.add(std::move(node));
    const bool has_right_turn = rows.counts.size() > 1 || count == 1;
    const double low = rows.top(rows.counts.size() - 1) + rows.height + (count == 1 ? 30 + disc + 4 : 4);
    return {rows.left + rows.span + (has_right_turn ? turn + disc : 0), low};
}

}  // namespace ligament
