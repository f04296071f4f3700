// What of a part's surroundings stands at the border of its page?
#include "ports.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

/// Who shares a port: a group's members, or a vertex in no group alone.
struct PortKey {
    bool out = false;   // drawn after what comes in
    bool rest = false;  // of what the other pages of the item show
    std::uint32_t group = none;
    std::uint32_t vertex = none;

    friend auto operator<=>(const PortKey&, const PortKey&) = default;
};

struct Outside {
    std::uint32_t arrow = none;  // of the folded rig
    std::uint32_t vertex = none, inner = none;
    PortKey key;
};

std::vector<std::uint32_t> arrows_of(const Subject& subject, const PagePart& part) {
    std::set<std::uint32_t> groups;
    std::vector<std::uint32_t> arrows;
    bool has_others = false;
    for (std::uint32_t v : part.vertices) {
        if (subject.group_of_vertex[v] == none)
            has_others = true;
        else
            groups.insert(subject.group_of_vertex[v]);
    }
    if (has_others) {
        arrows.resize(subject.folded.arrows.size());
        for (std::uint32_t a = 0; a < arrows.size(); ++a) arrows[a] = a;
        return arrows;
    }
    for (std::uint32_t g : groups) arrows.insert(arrows.end(), subject.arrows_at[g].begin(), subject.arrows_at[g].end());
    std::sort(arrows.begin(), arrows.end());
    arrows.erase(std::unique(arrows.begin(), arrows.end()), arrows.end());
    return arrows;
}

std::vector<Outside> find_outside(const Subject& subject, const PagePart& part, const std::vector<std::uint32_t>& arrows,
                                  const std::vector<std::uint32_t>& place) {
    std::vector<Outside> found;
    for (std::uint32_t a : arrows) {
        const FoldedArrow& arrow = subject.folded.arrows[a];
        const bool from_inside = place[arrow.from] != none, to_inside = place[arrow.to] != none;
        if (from_inside == to_inside) continue;
        Outside& one = found.emplace_back();
        one.arrow = a;
        one.vertex = from_inside ? arrow.to : arrow.from;
        one.inner = from_inside ? place[arrow.from] : place[arrow.to];
        one.key.out = from_inside;
        one.key.rest = part.whole[one.vertex];
        one.key.group = one.key.rest ? none : subject.group_of_vertex[one.vertex];
        if (!one.key.rest && one.key.group == none) one.key.vertex = one.vertex;
    }
    return found;
}

/// Of each side the ports with the fewest arrows are made one where there are too many.
void share_ports(std::vector<Outside>& outside, std::size_t most) {
    for (bool out : {false, true}) {
        std::map<PortKey, std::size_t> sizes;
        for (const Outside& one : outside)
            if (one.key.out == out) ++sizes[one.key];
        if (sizes.size() <= most) continue;
        std::vector<std::pair<std::size_t, PortKey>> by_size;
        for (const auto& [key, size] : sizes) by_size.emplace_back(size, key);
        std::stable_sort(by_size.begin(), by_size.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        std::set<PortKey> shared;
        for (std::size_t i = std::max<std::size_t>(most, 1) - 1; i < by_size.size(); ++i) shared.insert(by_size[i].second);
        const PortKey all{out, false, none, none};
        for (Outside& one : outside)
            if (one.key.out == out && shared.count(one.key)) one.key = all;
    }
}

std::string outside_name(const Subject& subject, std::uint32_t vertex) {
    return isolated(name_of(subject.rig, subject.dependencies, subject.folded.vertices[vertex]));
}

/// "body_ctl, pelvis_ctl +3", as it fits under a name.
std::string some_names(const Subject& subject, const std::vector<std::uint32_t>& vertices) {
    constexpr double width = 150;
    std::string text;
    for (std::size_t i = 0; i < vertices.size(); ++i) {
        const std::string name = name_of(subject.rig, subject.dependencies, subject.folded.vertices[vertices[i]]);
        const std::string more = i + 1 < vertices.size() ? " +" + std::to_string(vertices.size() - i - 1) : "";
        const std::string longer = text + (i ? ", " : "") + name;
        if (i > 0 && width_of(longer + more, 9.5) > width) return text + " +" + std::to_string(vertices.size() - i);
        text = i == 0 ? cut_in_middle(name, 9.5, width - 24) : longer;
    }
    return text;
}

constexpr std::size_t lines_shown = 40;

Box port_box(const Subject& subject, const PagePart& part, const PortKey& key, const std::vector<Outside>& members) {
    std::vector<std::uint32_t> vertices;
    std::set<std::uint32_t> groups, seen;
    for (const Outside& one : members) {
        if (seen.insert(one.vertex).second) vertices.push_back(one.vertex);
        groups.insert(subject.group_of_vertex[one.vertex]);
    }
    Box box;
    box.shape = Shape::group;
    if (key.rest) {
        box.name = "rest of " + part.name;
    } else if (key.group != none) {
        box.name = subject.groups[key.group].empty() ? "in no group" : drawable(subject.groups[key.group]);
    } else if (key.vertex != none) {
        const FoldedVertex& vertex = subject.folded.vertices[key.vertex];
        box.name = name_of(subject.rig, subject.dependencies, vertex);
        box.shape = vertex.kind == VertexKind::object     ? Shape::object
                    : vertex.kind == VertexKind::property ? Shape::property
                    : vertex.kind == VertexKind::solver   ? Shape::solver
                                                          : Shape::group;
    } else {
        box.name = std::to_string(groups.size()) + " other groups";
    }
    box.word = key.vertex != none ? (box.shape == Shape::object     ? "object"
                                     : box.shape == Shape::property ? "property"
                                                                    : "outside")
                                  : some_names(subject, vertices);
    box.hover = box.name + (key.out ? "\nneeds what is on this page" : "\nis needed on this page");
    for (std::size_t i = 0; i < vertices.size() && i < lines_shown; ++i) box.hover += "\n" + outside_name(subject, vertices[i]);
    if (vertices.size() > lines_shown)
        box.hover += "\nshowing " + std::to_string(lines_shown) + " of " + std::to_string(vertices.size());
    return box;
}

/// All arrows between a port and one box that are of one kind and alike in being inert or in a cycle.
struct Strand {
    bool inert = false, cycle = false, witness = false;
    std::vector<std::uint32_t> arrows;
};

Arrow port_arrow(const Subject& subject, const Strand& strand, EdgeKind kind) {
    Arrow arrow;
    arrow.kind = kind;
    arrow.inert = strand.inert, arrow.cycle = strand.cycle, arrow.witness = strand.witness;
    std::vector<std::string> words;
    for (std::uint32_t a : strand.arrows)
        words.push_back(label_of(subject.rig, subject.dependencies, subject.folded, subject.folded.arrows[a]));
    const bool agree = std::all_of(words.begin(), words.end(), [&](const std::string& w) { return w == words.front(); });
    arrow.word = agree ? words.front() : std::string(name_of(kind));
    const VertexKind to = subject.folded.vertices[subject.folded.arrows[strand.arrows.front()].to].kind;
    if (kind == EdgeKind::parent && to == VertexKind::object) arrow.word.clear();  // the object says that it follows
    if (strand.arrows.size() > 1 && !arrow.word.empty()) arrow.word += " \u00d7" + std::to_string(strand.arrows.size());
    for (std::size_t i = 0; i < strand.arrows.size() && i < lines_shown; ++i)
        arrow.hover += (i ? "\n" : "") +
                       hover_of(subject.rig, subject.dependencies, subject.folded, subject.folded.arrows[strand.arrows[i]]);
    if (strand.arrows.size() > lines_shown)
        arrow.hover += "\nshowing " + std::to_string(lines_shown) + " of " + std::to_string(strand.arrows.size());
    return arrow;
}

void add_ports(const Subject& subject, const PagePart& part, const std::vector<Outside>& outside, PartPlan& made) {
    std::map<PortKey, std::vector<Outside>> by_port;
    for (const Outside& one : outside) by_port[one.key].push_back(one);
    for (const auto& [key, members] : by_port) {
        const auto box = static_cast<std::uint32_t>(made.plan.boxes.size());
        made.plan.boxes.push_back(port_box(subject, part, key, members));
        made.ports.push_back({!key.out, box, key.group});
        std::map<std::tuple<std::uint32_t, EdgeKind, bool>, Strand> strands;
        for (const Outside& one : members) {
            const FoldedArrow& arrow = subject.folded.arrows[one.arrow];
            Strand& strand = strands[{one.inner, arrow.kind, arrow.inert}];
            strand.inert = arrow.inert;
            strand.cycle = strand.cycle || arrow.cycle;
            strand.witness = strand.witness || arrow.witness;
            strand.arrows.push_back(one.arrow);
        }
        for (const auto& [ends, strand] : strands) {
            Arrow arrow = port_arrow(subject, strand, std::get<EdgeKind>(ends));
            arrow.from = key.out ? std::get<0>(ends) : box;
            arrow.to = key.out ? box : std::get<0>(ends);
            made.plan.arrows.push_back(std::move(arrow));
        }
    }
}

}  // namespace

PartPlan plan_part(const Subject& subject, const PagePart& part) {
    const std::vector<std::uint32_t> arrows = arrows_of(subject, part);
    std::vector<std::uint32_t> place(subject.folded.vertices.size(), none);
    for (std::uint32_t i = 0; i < part.vertices.size(); ++i) place[part.vertices[i]] = i;
    PartPlan made;
    made.folded = part_of(subject.folded, part.vertices, arrows);
    made.plan = plan_bones(subject, made.folded);
    std::vector<Outside> outside = find_outside(subject, part, arrows, place);
    share_ports(outside, part.ports_a_side);
    add_ports(subject, part, outside, made);
    return made;
}

}  // namespace ligament
