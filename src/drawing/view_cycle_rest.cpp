// What else lies in the component of a cycle, and how is it tied to the loop that is shown?
#include "view_cycle.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "lists.hpp"
#include "style.hpp"
#include "text.hpp"
#include "wires.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr std::size_t most_boxes = 40, most_arrows = 90;
constexpr double box_width = 140, title_height = 24, plate_size = 9.5;

/// From 1: where a folded vertex stands on the loop; 0 elsewhere.
std::vector<std::size_t> places_on_loop(const CycleStory& story) {
    const FoldedRig& folded = story.subject.folded;
    const VertexKind kind = story.cycle.is_between_properties() ? VertexKind::property : VertexKind::bone;
    std::vector<std::size_t> place_of_id(kind == VertexKind::bone ? story.subject.rig.bones.size()
                                                                  : story.subject.rig.properties.size());
    for (std::size_t i = story.cycle.witness.size(); i-- > 0;) place_of_id[story.cycle.witness[i].from] = i + 1;
    std::vector<std::size_t> places(folded.vertices.size());
    for (std::size_t v = 0; v < places.size(); ++v)
        if (folded.vertices[v].kind == kind) places[v] = place_of_id[folded.vertices[v].element];
    return places;
}

Box box_of_vertex(const CycleStory& story, const FoldedVertex& vertex) {
    const Subject& subject = story.subject;
    if (vertex.kind == VertexKind::bone) return box_of(subject, vertex.element, box_width);
    Box box;
    box.shape = vertex.kind == VertexKind::property ? Shape::property
                : vertex.kind == VertexKind::object ? Shape::object
                                                    : Shape::solver;
    box.name = cut_in_middle(name_of(subject.rig, subject.dependencies, vertex), name_size, box_width - 40);
    box.word = vertex.kind == VertexKind::property ? "property" : vertex.kind == VertexKind::object ? "object" : "solver";
    box.hover = hover_of(subject.rig, subject.dependencies, vertex, nullptr);
    return box;
}

About about_of(const FoldedVertex& vertex) {
    if (vertex.kind == VertexKind::bone) return {About::Kind::bone, vertex.element};
    if (vertex.kind == VertexKind::property) return {About::Kind::property, vertex.element};
    return {};
}

/// The faint boxes: those of the loop that the rest is tied to, then the rest.
std::vector<Node> boxes_of(const CycleStory& story, const RestOfCycle& rest, std::vector<std::uint32_t>& place) {
    const FoldedRig& folded = story.subject.folded;
    const std::vector<std::size_t> on_loop = places_on_loop(story);
    std::vector<std::uint32_t> shown;
    for (std::uint32_t a : rest.arrows)
        for (std::uint32_t v : {folded.arrows[a].from, folded.arrows[a].to})
            if (on_loop[v]) shown.push_back(v);
    std::sort(shown.begin(), shown.end(), [&](auto a, auto b) { return on_loop[a] < on_loop[b]; });
    shown.erase(std::unique(shown.begin(), shown.end()), shown.end());
    shown.insert(shown.end(), rest.vertices.begin(), rest.vertices.end());
    place.assign(folded.vertices.size(), none);
    std::vector<Node> nodes;
    for (std::uint32_t v : shown) {
        Node node;
        node.faint = true;
        node.box = box_of_vertex(story, folded.vertices[v]);
        node.about = about_of(folded.vertices[v]);
        if (on_loop[v]) node.box.word = "no. " + std::to_string(on_loop[v]) + " of the loop";
        node.box.badges.clear();  // there for context alone
        place[v] = static_cast<std::uint32_t>(nodes.size());
        const Size size = size_of(node.box);
        node.rect = {0, 0, size.width, size.height};
        nodes.push_back(std::move(node));
    }
    return nodes;
}

Wiring wire(const CycleStory& story, const RestOfCycle& rest, const std::vector<Node>& nodes,
            const std::vector<std::uint32_t>& place, std::size_t columns) {
    const FoldedRig& folded = story.subject.folded;
    std::vector<WiredBox> boxes;
    for (std::size_t n = 0; n < nodes.size(); ++n) {
        WiredBox box;
        box.row = static_cast<std::uint32_t>(n / columns), box.column = static_cast<std::uint32_t>(n % columns);
        box.width = nodes[n].rect.width, box.height = nodes[n].rect.height;
        boxes.push_back(std::move(box));
    }
    std::vector<Wire> wires;
    std::vector<std::size_t> entering(nodes.size()), entered(nodes.size());
    for (std::uint32_t a : rest.arrows) ++entering[place[folded.arrows[a].to]];
    constexpr std::size_t most_inlets = 4;
    for (std::size_t n = 0; n < nodes.size(); ++n) {
        const std::size_t count = std::min(entering[n], most_inlets);
        for (std::size_t i = 0; i < count; ++i)
            boxes[n].inlets.push_back(boxes[n].height * (static_cast<double>(i) + 1) / (static_cast<double>(count) + 1));
    }
    for (std::uint32_t a : rest.arrows) {
        const std::uint32_t to = place[folded.arrows[a].to];
        const std::size_t inlet = entered[to]++ * boxes[to].inlets.size() / entering[to];
        wires.push_back({place[folded.arrows[a].from], to, static_cast<std::uint32_t>(inlet),
                         static_cast<std::uint32_t>(folded.arrows[a].kind)});
    }
    return lay_wires(boxes, wires);
}

/// Cuts of makers that take no edge of the loop away, by arrow of the rest that they take away first.
void mark_cuts(Scene& scene, const CycleStory& story, const RestOfCycle& rest, const std::vector<std::vector<Point>>& wires) {
    auto mark = [&](const Cut& cut, const std::vector<bool>& on_loop, bool finer) {
        for (std::size_t m = 0; m < cut.makers.size(); ++m) {
            if (on_loop[m]) continue;
            for (std::size_t w = 0; w < wires.size(); ++w) {
                const FoldedArrow& arrow = story.subject.folded.arrows[rest.arrows[w]];
                const bool taken = std::any_of(arrow.makers.begin(), arrow.makers.end(), [&](MakerId made_by) {
                    return is_taken_by(story.subject.dependencies, made_by, cut.makers[m].edge.maker);
                });
                if (!taken) continue;
                add_sign_on_wire(scene, wires[w], CutSign{m + 1, cut.makers[m].cost, finer});
                break;
            }
        }
    };
    if (story.cut) mark(*story.cut, story.cut_on_loop, false);
    if (story.finer) mark(*story.finer, story.finer_on_loop, true);
}

/// Words beside bars on a wire, along it or, where it is upright, below or above them; nothing where something is in the way.
bool add_plate_beside(Scene& scene, Point at, Point along, const std::string& words, double side) {
    Label plate;
    plate.words = words;
    plate.size = plate_size, plate.bold = plate.plate = true;
    plate.align = Align::middle;
    const bool level = std::abs(along.x) > 0.5;
    const double half = width_of(words, plate_size) / 2 + 12;
    plate.at = {at.x + (level ? side * half : 0), at.y + (level ? 3 : 3.5 + side * 16)};
    const Rect covers = plate.extent();
    auto is_in_the_way = [&](const Rect& other) { return covers.overlaps(other); };
    auto is_free = [&](const auto& things, auto rect_of) {
        return std::none_of(things.begin(), things.end(), [&](const auto& thing) { return is_in_the_way(rect_of(thing)); });
    };
    const bool free = covers.x > 0 && covers.right() < scene.width &&
                      is_free(scene.nodes, [](const Node& node) { return node.rect; }) &&
                      is_free(scene.labels, [](const Label& label) { return label.extent(); }) &&
                      is_free(scene.signs, [](const Mark& sign) { return sign.extent; });
    if (free) scene.add(std::move(plate));
    return free;
}

}  // namespace

void add_sign_on_wire(Scene& scene, const std::vector<Point>& wire, const CutSign& sign) {
    std::size_t longest = 0;
    double length = 0;
    for (std::size_t i = 0; i + 1 < wire.size(); ++i) {
        const double own = std::hypot(wire[i + 1].x - wire[i].x, wire[i + 1].y - wire[i].y);
        if (own > length + 0.5) length = own, longest = i;
    }
    if (length < 12) return;
    const Point a = wire[longest], b = wire[longest + 1], along{(b.x - a.x) / length, (b.y - a.y) / length};
    const Point at{(a.x + b.x) / 2, (a.y + b.y) / 2};
    add_cut_bars(scene, at, along, sign.finer, sign.words(), 7);
    for (const std::string& words : {sign.words(), sign.short_words()})
        for (double side : {1.0, -1.0})
            if (add_plate_beside(scene, at, along, words, side)) return;
}

RestOfCycle find_rest(const CycleStory& story) {
    const FoldedRig& folded = story.subject.folded;
    const std::uint32_t cycle = story.index + 1;
    const std::vector<std::size_t> on_loop = places_on_loop(story);
    RestOfCycle rest;
    std::vector<bool> tied(folded.vertices.size());
    for (std::uint32_t a = 0; a < folded.arrows.size(); ++a) {
        const FoldedArrow& arrow = folded.arrows[a];
        if (arrow.cycle != cycle || arrow.witness) continue;
        rest.arrows.push_back(a);
        tied[arrow.from] = tied[arrow.to] = true;
    }
    // What is no bone and has no arrow left is folded into an edge of the loop.
    for (std::uint32_t v = 0; v < folded.vertices.size(); ++v)
        if (folded.vertices[v].cycle == cycle && !on_loop[v] && (tied[v] || folded.vertices[v].kind == VertexKind::bone))
            rest.vertices.push_back(v);
    return rest;
}

Size add_rest(Scene& scene, const CycleStory& story, const RestOfCycle& rest, double y, Room room) {
    if (rest.arrows.empty() || rest.vertices.size() > most_boxes || rest.arrows.size() > most_arrows) return {};
    std::vector<std::uint32_t> place;
    std::vector<Node> nodes = boxes_of(story, rest, place);
    std::optional<Wiring> wiring;
    for (std::size_t columns = std::min<std::size_t>(nodes.size(), 8); columns > 0; --columns) {
        wiring = wire(story, rest, nodes, place, columns);
        if (wiring->width <= room.width) break;
    }
    if (wiring->width > room.width || y + title_height + wiring->height > room.height) return {};
    const double top = y + title_height;
    Label title;
    title.at = {0, y + 14};
    title.tone = Tone::quiet;
    title.words = "the rest of the component, faint: " + std::to_string(rest.vertices.size()) +
                  (rest.vertices.size() == 1 ? " box, " : " boxes, ") + number_of(rest.arrows.size(), "dependency");
    const auto first = static_cast<std::uint32_t>(scene.nodes.size());
    for (std::size_t n = 0; n < nodes.size(); ++n) {
        nodes[n].rect = wiring->boxes[n];
        nodes[n].rect.y += top;
        scene.add(std::move(nodes[n]));
    }
    scene.add(std::move(title));
    const FoldedRig& folded = story.subject.folded;
    for (std::size_t w = 0; w < rest.arrows.size(); ++w) {
        const FoldedArrow& arrow = folded.arrows[rest.arrows[w]];
        for (Point& corner : wiring->wires[w]) corner.y += top;
        Stroke stroke;
        stroke.curve = curve_along(wiring->wires[w], 6, 8);
        stroke.from = first + place[arrow.from], stroke.to = first + place[arrow.to];
        stroke.kind = arrow.kind;
        stroke.faint = true;
        stroke.hover = hover_of(story.subject.rig, story.subject.dependencies, folded, arrow);
        scene.strokes.push_back(std::move(stroke));
    }
    scene.width = std::max(scene.width, wiring->width);
    mark_cuts(scene, story, rest, wiring->wires);
    return {wiring->width, title_height + wiring->height};
}

}  // namespace ligament
