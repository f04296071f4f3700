// How is one group built? Its bones page by page, with what they need and what needs them at the border.
#include <algorithm>
#include <numeric>

#include "labels.hpp"
#include "layout.hpp"
#include "ports.hpp"
#include "shapes.hpp"
#include "style.hpp"
#include "text.hpp"
#include "views.hpp"
#include "words.hpp"

namespace ligament {

namespace {

/// A part with its places.
struct PlacedPart {
    PagePart part;
    PartPlan made;
    Layout layout;
};

About about_of(const FoldedVertex& vertex) {
    if (vertex.kind == VertexKind::bone) return {About::Kind::bone, vertex.element};
    if (vertex.kind == VertexKind::property) return {About::Kind::property, vertex.element};
    return {};
}

LayoutTask task_of(const PartPlan& made) {
    LayoutTask task;
    for (const Box& box : made.plan.boxes) {
        const Size size = size_of(box);
        task.nodes.push_back({size.width, size.height, LayoutTask::Layer::any});
    }
    for (const Port& port : made.ports)
        task.nodes[port.box].layer = port.into_part ? LayoutTask::Layer::first : LayoutTask::Layer::last;
    for (const Arrow& arrow : made.plan.arrows)
        task.links.push_back({arrow.from, arrow.to, arrow.inert ? 0u : arrow.kind == EdgeKind::parent ? 2u : 1u});
    for (const auto& [first, second] : made.plan.ties) task.ties.push_back({first, second, 4});
    return task;
}

bool fits(const Layout& layout, Room room) { return layout.width <= room.width && layout.height <= room.height; }

/// The most boxes one below the other: those of a longest path. A cycle is opened where its boxes are met last.
std::size_t levels_of(const LayoutTask& task) {
    std::vector<std::vector<std::uint32_t>> next(task.nodes.size());
    std::vector<std::size_t> waits(task.nodes.size(), 0), level(task.nodes.size(), 1);
    for (const LayoutTask::Link& link : task.links) {
        if (link.from == link.to) continue;
        next[link.from].push_back(link.to);
        ++waits[link.to];
    }
    std::vector<bool> done(task.nodes.size(), false);
    std::vector<std::uint32_t> ready;
    std::size_t most = 1;
    for (std::uint32_t v = 0; v < task.nodes.size(); ++v)
        if (waits[v] == 0) ready.push_back(v);
    for (std::uint32_t oldest = 0, left = static_cast<std::uint32_t>(task.nodes.size()); left > 0; --left) {
        while (ready.empty()) {
            if (!done[oldest]) ready.push_back(oldest);
            ++oldest;
        }
        const std::uint32_t v = ready.back();
        ready.pop_back();
        done[v] = true;
        most = std::max(most, level[v]);
        for (std::uint32_t to : next[v]) {
            if (done[to]) continue;
            level[to] = std::max(level[to], level[v] + 1);
            if (--waits[to] == 0) ready.push_back(to);
        }
    }
    return most;
}

/// Whether a layout of these boxes can fit at all: they do not fill a page to more than this, and do not reach below it. Else it
/// is not begun: deep ones take dot long.
bool may_fit(const LayoutTask& task, Room room) {
    constexpr double fill = 0.5, least_gap = 0.6;
    const auto levels = static_cast<double>(levels_of(task));
    if (levels * box_height + (levels - 1) * task.layer_gap * least_gap > room.height) return false;
    double area = 0;
    for (const LayoutTask::Node& node : task.nodes) area += node.width * node.height;
    return area <= fill * room.width * room.height;
}

/// Vertices of a part so that what hangs together stands together: depth first from the first in the file, along arrows either
/// way.
std::vector<std::uint32_t> in_chains(const FoldedRig& part) {
    std::vector<std::vector<std::uint32_t>> next(part.vertices.size());
    for (const FoldedArrow& arrow : part.arrows) {
        next[arrow.from].push_back(arrow.to);
        next[arrow.to].push_back(arrow.from);
    }
    std::vector<bool> seen(part.vertices.size(), false);
    std::vector<std::uint32_t> order, stack;
    for (std::uint32_t first = 0; first < part.vertices.size(); ++first) {
        stack.push_back(first);
        while (!stack.empty()) {
            const std::uint32_t v = stack.back();
            stack.pop_back();
            if (seen[v]) continue;
            seen[v] = true;
            order.push_back(v);
            std::sort(next[v].begin(), next[v].end(), std::greater<>());
            stack.insert(stack.end(), next[v].begin(), next[v].end());
        }
    }
    return order;
}

/// Two parts of nearly the same size, cut where the fewest arrows are.
std::pair<PagePart, PagePart> split(const PagePart& part, const FoldedRig& folded) {
    const std::vector<std::uint32_t> order = in_chains(folded);
    std::vector<std::size_t> place(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) place[order[i]] = i;
    std::vector<int> opened(order.size() + 1, 0);  // arrows that begin less those that end before each cut
    for (const FoldedArrow& arrow : folded.arrows) {
        const auto [first, last] = std::minmax(place[arrow.from], place[arrow.to]);
        ++opened[first + 1];
        if (last + 1 <= order.size()) --opened[last + 1];
    }
    std::partial_sum(opened.begin(), opened.end(), opened.begin());
    const std::size_t middle = order.size() / 2, from = std::max<std::size_t>(1, order.size() * 7 / 20);
    std::size_t best = std::max<std::size_t>(1, middle);
    for (std::size_t cut = from; cut <= order.size() - from && cut < order.size(); ++cut)
        if (opened[cut] < opened[best]) best = cut;
    std::pair<PagePart, PagePart> halves{part, part};
    halves.first.vertices.clear(), halves.second.vertices.clear();
    for (std::size_t i = 0; i < order.size(); ++i)
        (i < best ? halves.first : halves.second).vertices.push_back(part.vertices[order[i]]);
    for (PagePart* half : {&halves.first, &halves.second}) std::sort(half->vertices.begin(), half->vertices.end());
    return halves;
}

/// Layouts of a part that fit the room, smaller and smaller parts until all do.
std::vector<PlacedPart> place_parts(const Subject& subject, PagePart whole, Room room) {
    std::vector<PlacedPart> placed;
    std::vector<PagePart> waiting{std::move(whole)};
    while (!waiting.empty()) {
        PagePart part = std::move(waiting.back());
        waiting.pop_back();
        PartPlan made = plan_part(subject, part);
        const LayoutTask task = task_of(made);
        const bool is_least = part.vertices.size() == 1 && part.ports_a_side <= 1;
        if (is_least || may_fit(task, room)) {
            Layout layout = subject.in_rows ? lay_out_grid(task) : lay_out_in(task, room.width, room.height);
            if (is_least || fits(layout, room)) {
                placed.push_back({std::move(part), std::move(made), std::move(layout)});
                continue;
            }
        }
        if (part.vertices.size() == 1) {
            part.ports_a_side = std::max<std::size_t>(1, part.ports_a_side / 2);
            waiting.push_back(std::move(part));
            continue;
        }
        auto [first, second] = split(part, made.folded);
        waiting.push_back(std::move(second));
        waiting.push_back(std::move(first));
    }
    return placed;
}

std::size_t add_labels(const PlacedPart& placed, Scene& scene) {
    const Plan& plan = placed.made.plan;
    const std::vector<std::optional<Rect>> places = place_labels(plan, placed.layout);
    std::size_t left_out = 0;
    for (std::size_t a = 0; a < plan.arrows.size(); ++a) {
        left_out += !plan.arrows[a].word.empty() && !places[a];
        if (!places[a]) continue;
        scene.add(Label{.at = {places[a]->centre().x, places[a]->y + 9.7},
                        .words = plan.arrows[a].word,
                        .size = label_size,
                        .align = Align::middle,
                        .tone = Tone::quiet,
                        .plate = true,
                        .hover = plan.arrows[a].hover});
    }
    return left_out;
}

/// The scene of a part; gives how many labels found no room.
std::size_t draw_part(const PlacedPart& placed, Scene& scene) {
    const Plan& plan = placed.made.plan;
    for (std::size_t b = 0; b < plan.boxes.size(); ++b) {
        Node node{placed.layout.boxes[b], plan.boxes[b], false, {}};
        if (b < placed.made.folded.vertices.size()) node.about = about_of(placed.made.folded.vertices[b]);
        scene.add(std::move(node));
    }
    for (const Port& port : placed.made.ports)
        if (port.group != none) scene.nodes[port.box].about = {About::Kind::group, port.group};
    for (std::size_t a = 0; a < plan.arrows.size(); ++a) {
        const Arrow& arrow = plan.arrows[a];
        scene.strokes.push_back({.curve = placed.layout.curves[a],
                                 .from = arrow.from,
                                 .to = arrow.to,
                                 .kind = arrow.kind,
                                 .inert = arrow.inert,
                                 .cycle = arrow.cycle,
                                 .witness = arrow.witness,
                                 .hover = arrow.hover});
    }
    return add_labels(placed, scene);
}

constexpr double between_parts = 48;

/// Parts that stand together on one page, each with its own border: deep chains and wide fans are cut into several, and what is
/// narrow or flat leaves room.
struct Spread {
    struct Place {
        const PlacedPart* part;
        Point at;
    };
    std::vector<Place> places;
    double width = 0, height = 0;
};

/// In rows as text flows, onto as many pages as that takes.
std::vector<Spread> spread_out(const std::vector<PlacedPart>& placed, Room room) {
    std::vector<Spread> spreads;
    Point at;
    double row_bottom = 0;
    for (const PlacedPart& part : placed) {
        if (at.x > 0 && at.x + part.layout.width > room.width) at = {0, row_bottom + between_parts};
        if (spreads.empty() || at.y + part.layout.height > room.height) {
            spreads.emplace_back();
            at = {};
            row_bottom = 0;
        }
        Spread& spread = spreads.back();
        spread.places.push_back({&part, at});
        row_bottom = std::max(row_bottom, at.y + part.layout.height);
        spread.width = std::max(spread.width, at.x + part.layout.width);
        spread.height = row_bottom;
        at.x += part.layout.width + between_parts;
    }
    return spreads;
}

void draw_spread(const Spread& spread, Sheet& sheet) {
    Scene& scene = sheet.scene;
    std::size_t left_out = 0;
    for (const auto& [placed, at] : spread.places) {
        Scene part;
        left_out += draw_part(*placed, part);
        if (at.x > 0)
            scene.backdrops.push_back({{at.x - between_parts / 2, at.y, 1, placed->layout.height}, Backdrop::Look::rule, 0});
        if (at.y > 0)
            scene.backdrops.push_back({{at.x, at.y - between_parts / 2, placed->layout.width, 1}, Backdrop::Look::rule, 0});
        append(scene, std::move(part), at.x, at.y);
    }
    scene.width = spread.width, scene.height = spread.height;
    auto occurs = [&](std::string_view sign) {
        return std::any_of(scene.labels.begin(), scene.labels.end(),
                           [&](const Label& label) { return label.words.find(sign) != std::string::npos; });
    };
    if (occurs(" \u00d7")) sheet.legend.push_back({{}, "\u00d72: two of that kind on one line"});
    if (occurs(" +")) sheet.legend.push_back({{}, "+1: another kind beside it"});
    if (left_out)
        sheet.legend.push_back(
            {{}, number_of(left_out, "label") + " left out for want of room: line, head and hover title still tell"});
}

/// "46 bones: 12 control, 20 mechanism, 14 deform", and what is wrong with them.
std::vector<std::string> words_on(const Subject& subject, const std::vector<std::uint32_t>& vertices) {
    std::size_t bones = 0, control = 0, mechanism = 0, deform = 0, loose = 0, carried = 0, cyclic = 0;
    for (std::uint32_t v : vertices) {
        const FoldedVertex& vertex = subject.folded.vertices[v];
        if (vertex.kind != VertexKind::bone) continue;
        const Bone& bone = subject.rig.bones[vertex.element];
        ++bones, control += bone.control, deform += bone.deform, mechanism += bone.is_mechanism();
        cyclic += vertex.cycle != 0;
        if (const Attachment* verdict = subject.verdict[vertex.element]) {
            loose += verdict->verdict == Verdict::orphaned || verdict->verdict == Verdict::root_only;
            carried += verdict->verdict == Verdict::carried;
        }
    }
    std::string line = number_of(bones, "bone") + ": " + std::to_string(control) + " control, " + std::to_string(mechanism) +
                       " mechanism, " + std::to_string(deform) + " deform";
    if (cyclic) line += "; " + number_of(cyclic, "bone") + " in cycles";
    if (loose) line += "; " + number_of(loose, "deform bone") + " unattached";
    if (carried) line += "; " + number_of(carried, "deform bone") + " carried";
    return {line};
}

/// What all pages of an item have in common.
struct Heading {
    std::string name, title;
    std::vector<std::string> lines;
    std::uint32_t subject = none;
};

std::vector<Sheet> sheets_of(const Subject& subject, const Heading& heading, const std::vector<PlacedPart>& parts, Room room) {
    std::vector<Sheet> sheets;
    const std::vector<Spread> spreads = spread_out(parts, room);
    for (std::size_t i = 0; i < spreads.size(); ++i) {
        Sheet& sheet = sheets.emplace_back();
        sheet.name = heading.name + (i ? "-" + std::to_string(i + 1) : "");
        sheet.title = heading.title;
        sheet.subtitle = heading.lines;
        if (spreads.size() > 1) {
            sheet.title += " (" + std::to_string(i + 1) + " of " + std::to_string(spreads.size()) + ")";
            std::vector<std::uint32_t> vertices;
            for (const auto& [placed, at] : spreads[i].places)
                vertices.insert(vertices.end(), placed->part.vertices.begin(), placed->part.vertices.end());
            sheet.subtitle.push_back("on this page " + words_on(subject, vertices).front());
        }
        if (spreads[i].places.size() > 1)
            sheet.subtitle.back() += "; in " + std::to_string(spreads[i].places.size()) + " parts, each with its own border";
        sheet.subject = heading.subject;
        sheet.in_state = !subject.facts.is_default_state;
        if (subject.in_rows)
            sheet.subtitle.push_back("the layout did not end in time: boxes stand in rows, and lines may run through them");
        draw_spread(spreads[i], sheet);
    }
    return sheets;
}

std::vector<Sheet> plan_around(const Subject& subject, Room room) {
    const BoneId around = *subject.options.around;
    const unsigned hops = subject.options.hops;
    PagePart part;
    part.whole = find_around(subject.folded, around, hops);
    const std::string bone = drawable(subject.rig.bones[around].name);
    part.name = "the neighbourhood";
    for (std::uint32_t v = 0; v < part.whole.size(); ++v)
        if (part.whole[v]) part.vertices.push_back(v);
    const auto kept = std::count_if(part.vertices.begin(), part.vertices.end(),
                                    [&](std::uint32_t v) { return subject.folded.vertices[v].kind == VertexKind::bone; });
    const std::string shown = "showing " + std::to_string(kept) + " of " + number_of(subject.rig.bones.size(), "bone") +
                              ": up to " + std::to_string(hops) + (hops == 1 ? " dependency from " : " dependencies from ") +
                              isolated(bone);
    const Heading heading{"around-" + file_words(subject.rig.bones[around].name),
                          bone + " \u00b7 " + drawable(subject.rig.name),
                          {shown + "; what lies beyond stands at the border, by groups"},
                          around};
    return sheets_of(subject, heading, place_parts(subject, std::move(part), room), room);
}

}  // namespace

std::vector<std::uint32_t> groups_to_draw(const Subject& subject) {
    if (subject.options.around) return {0};
    std::vector<std::uint32_t> items;
    for (std::uint32_t g = 0; g < subject.groups.size(); ++g)
        if (!subject.options.group || subject.groups[g] == *subject.options.group) items.push_back(g);
    return items;
}

std::vector<Sheet> plan_of_group(const Subject& subject, std::uint32_t item, Room room) {
    if (subject.options.around) return plan_around(subject, room);
    const std::string& group = subject.groups[item];
    PagePart part;
    part.vertices = subject.vertices_in[item];
    part.whole.assign(subject.folded.vertices.size(), false);
    for (std::uint32_t v : part.vertices) part.whole[v] = true;
    part.name = group.empty() ? "those in no group" : drawable(group);
    std::string number = std::to_string(item + 1);
    const std::size_t digits = std::to_string(subject.groups.size()).size();
    number.insert(0, digits - number.size(), '0');
    const Heading heading{
        "group-" + number + "-" + (group.empty() ? "none" : file_words(group)),
        (group.empty() ? "bones in no group" : "group " + isolated(drawable(group))) + " \u00b7 " + drawable(subject.rig.name),
        words_on(subject, part.vertices), item};
    return sheets_of(subject, heading, place_parts(subject, std::move(part), room), room);
}

}  // namespace ligament
