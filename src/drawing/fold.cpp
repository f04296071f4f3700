// Which boxes and arrows does a rig come to once drivers are folded into the arrows that they make?
#include "fold.hpp"

#include <algorithm>
#include <deque>
#include <iterator>
#include <numeric>
#include <set>
#include <tuple>

namespace ligament {

namespace {

struct Strand {  // one edge, or one input of a driver with one edge that leaves the driver
    std::uint32_t from, to;
    EdgeKind kind;
    bool inert;
    MakerId maker;
    DriverId driver;

    auto bundle() const { return std::tuple(to, from, kind, inert); }
};

/// Bone-grain vertices less the drivers.
std::uint32_t without_drivers(const Graph& graph, VertexId v) {
    return v < graph.first_driver ? v : v - (graph.first_object - graph.first_driver);
}

bool is_driver(const Graph& graph, VertexId v) { return v >= graph.first_driver && v < graph.first_object; }

std::vector<Strand> find_strands(const Dependencies& dependencies) {
    const Graph& graph = dependencies.bone;
    std::vector<Strand> strands;
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        if (is_driver(graph, v)) continue;
        const std::uint32_t to = without_drivers(graph, v);
        for (const Edge& edge : graph.needs(v)) {
            const bool inert = dependencies.is_inert(edge);
            if (!is_driver(graph, edge.from)) {
                strands.push_back({without_drivers(graph, edge.from), to, edge.kind(), inert, edge.maker, none});
                continue;
            }
            for (const Edge& input : graph.needs(edge.from))
                strands.push_back({without_drivers(graph, input.from), to, EdgeKind::driver,
                                   inert || dependencies.is_inert(input), edge.maker, graph.vertices[edge.from].element});
        }
    }
    return strands;
}

std::vector<FoldedArrow> bundle(std::vector<Strand> strands) {
    std::stable_sort(strands.begin(), strands.end(), [](const Strand& a, const Strand& b) { return a.bundle() < b.bundle(); });
    std::vector<FoldedArrow> arrows;
    const Strand* before = nullptr;
    for (const Strand& strand : strands) {
        if (!before || before->bundle() != strand.bundle()) {
            FoldedArrow& arrow = arrows.emplace_back();
            arrow.from = strand.from, arrow.to = strand.to, arrow.kind = strand.kind, arrow.inert = strand.inert;
        }
        before = &strand;
        FoldedArrow& arrow = arrows.back();
        bool known = false;
        for (std::size_t i = 0; i < arrow.makers.size() && !known; ++i)
            known = arrow.makers[i] == strand.maker && arrow.drivers[i] == strand.driver;
        if (known) continue;
        arrow.makers.push_back(strand.maker);
        arrow.drivers.push_back(strand.driver);
    }
    return arrows;
}

/// Arrows of each vertex, as compressed rows of arrow indices.
struct Rows {
    std::vector<std::uint32_t> first, arrow;

    Rows(const FoldedRig& rig, bool outgoing) : first(rig.vertices.size() + 1), arrow(rig.arrows.size()) {
        auto end = [&](const FoldedArrow& a) { return outgoing ? a.from : a.to; };
        for (const FoldedArrow& a : rig.arrows) ++first[end(a) + 1];
        for (std::size_t v = 1; v < first.size(); ++v) first[v] += first[v - 1];
        std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
        for (std::uint32_t i = 0; i < rig.arrows.size(); ++i) arrow[next[end(rig.arrows[i])]++] = i;
    }
};

/// Objects and solvers between members of one cycle: reached from a member and reaching one through objects and solvers alone.
void mark_between(FoldedRig& rig, const Rows& out, const Rows& in, const std::vector<std::uint32_t>& members,
                  std::uint32_t cycle) {
    auto spread = [&](const Rows& rows, bool outgoing) {
        std::vector<std::uint32_t> stack = members;
        std::set<std::uint32_t> seen;
        while (!stack.empty()) {
            const std::uint32_t v = stack.back();
            stack.pop_back();
            for (std::uint32_t i = rows.first[v]; i < rows.first[v + 1]; ++i) {
                const FoldedArrow& arrow = rig.arrows[rows.arrow[i]];
                const std::uint32_t other = outgoing ? arrow.to : arrow.from;
                const VertexKind kind = rig.vertices[other].kind;
                if (arrow.inert || kind == VertexKind::bone || kind == VertexKind::property) continue;
                if (seen.insert(other).second) stack.push_back(other);
            }
        }
        return seen;
    };
    const std::set<std::uint32_t> after = spread(out, true), before = spread(in, false);
    std::vector<std::uint32_t> both;
    std::set_intersection(after.begin(), after.end(), before.begin(), before.end(), std::back_inserter(both));
    for (std::uint32_t v : both) rig.vertices[v].cycle = cycle;
}

/// Marks the arrows that one edge of a witness stands for: a shortest way from `from` to `to` over arrows of the edge's makers,
/// through no other bone.
void mark_witness(FoldedRig& rig, const Rows& out, std::uint32_t from, std::uint32_t to, const FoldedEdge& edge) {
    auto made_here = [&](const FoldedArrow& arrow) {
        auto is_maker = [&](MakerId m) {
            return m == edge.maker || std::find(edge.through.begin(), edge.through.end(), m) != edge.through.end();
        };
        return !arrow.inert && std::any_of(arrow.makers.begin(), arrow.makers.end(), is_maker);
    };
    struct Reached {
        std::uint32_t arrow;
        std::size_t before;
    };
    std::vector<Reached> queue;
    constexpr std::size_t start = static_cast<std::size_t>(-1);
    std::set<std::uint32_t> seen;
    for (std::size_t next = start; next == start || next < queue.size(); next = next == start ? 0 : next + 1) {
        const std::uint32_t at = next == start ? from : rig.arrows[queue[next].arrow].to;
        if (next != start && at == to) {
            for (std::size_t i = next; i != start; i = queue[i].before) rig.arrows[queue[i].arrow].witness = true;
            return;
        }
        if (next != start && rig.vertices[at].kind == VertexKind::bone) continue;
        if (!seen.insert(at).second) continue;
        for (std::uint32_t i = out.first[at]; i < out.first[at + 1]; ++i)
            if (made_here(rig.arrows[out.arrow[i]])) queue.push_back({out.arrow[i], next});
    }
}

void mark_cycles(FoldedRig& rig, const Graph& graph, const Facts& facts) {
    if (facts.cycles.empty()) return;
    const Rows out(rig, true), in(rig, false);
    for (std::uint32_t c = 0; c < facts.cycles.size(); ++c) {
        const Cycle& cycle = facts.cycles[c];
        std::vector<std::uint32_t> members = cycle.bones;
        for (PropertyId property : cycle.properties) members.push_back(graph.first_property + property);
        for (std::uint32_t v : members) rig.vertices[v].cycle = c + 1;
        mark_between(rig, out, in, members, c + 1);
    }
    for (FoldedArrow& arrow : rig.arrows)
        if (!arrow.inert && rig.vertices[arrow.from].cycle == rig.vertices[arrow.to].cycle)
            arrow.cycle = rig.vertices[arrow.from].cycle;
    for (const Cycle& cycle : facts.cycles) {
        const std::uint32_t first = cycle.is_between_properties() ? graph.first_property : 0;
        for (const FoldedEdge& edge : cycle.witness) mark_witness(rig, out, first + edge.from, first + edge.to, edge);
    }
}

/// Bones up to `hops` from `start` in one direction, and what stands between them.
void keep_reached(const FoldedRig& rig, const Rows& rows, bool outgoing, std::uint32_t start, unsigned hops,
                  std::vector<bool>& kept) {
    std::vector<std::uint32_t> distance(rig.vertices.size(), none);
    std::deque<std::pair<std::uint32_t, std::uint32_t>> queue{{start, 0}};  // vertex, bones on the way
    while (!queue.empty()) {
        const auto [v, far] = queue.front();
        queue.pop_front();
        if (distance[v] != none) continue;
        distance[v] = far;
        kept[v] = true;
        for (std::uint32_t i = rows.first[v]; far < hops && i < rows.first[v + 1]; ++i) {
            const FoldedArrow& arrow = rig.arrows[rows.arrow[i]];
            const std::uint32_t other = outgoing ? arrow.to : arrow.from;
            if (rig.vertices[other].kind == VertexKind::bone)
                queue.emplace_back(other, far + 1);
            else
                queue.emplace_front(other, far);
        }
    }
}

}  // namespace

FoldedRig fold(const Rig& rig, const Dependencies& dependencies, const Facts& facts) {
    const Graph& graph = dependencies.bone;
    FoldedRig folded;
    folded.bones = rig.bones.size();
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        if (!is_driver(graph, v)) folded.vertices.push_back({graph.vertices[v].kind, graph.vertices[v].element, 0});
    folded.arrows = bundle(find_strands(dependencies));
    mark_cycles(folded, graph, facts);

    std::vector<bool> kept(folded.vertices.size(), false);
    for (std::size_t v = 0; v < kept.size(); ++v) kept[v] = folded.vertices[v].kind != VertexKind::property;
    for (const FoldedArrow& arrow : folded.arrows) kept[arrow.from] = kept[arrow.to] = true;
    folded.unused_left_out = static_cast<std::size_t>(std::count(kept.begin(), kept.end(), false));
    std::vector<std::uint32_t> vertices, arrows(folded.arrows.size());
    for (std::uint32_t v = 0; v < kept.size(); ++v)
        if (kept[v]) vertices.push_back(v);
    std::iota(arrows.begin(), arrows.end(), 0u);
    return part_of(folded, vertices, arrows);
}

std::vector<bool> find_around(const FoldedRig& whole, BoneId around, unsigned hops) {
    std::vector<bool> kept(whole.vertices.size(), false);
    keep_reached(whole, Rows(whole, true), true, around, hops, kept);
    keep_reached(whole, Rows(whole, false), false, around, hops, kept);
    return kept;
}

FoldedRig part_of(const FoldedRig& whole, const std::vector<std::uint32_t>& vertices, const std::vector<std::uint32_t>& arrows) {
    FoldedRig part;
    part.bones = whole.bones;
    part.unused_left_out = whole.unused_left_out;
    std::vector<std::uint32_t> place(whole.vertices.size(), none);
    for (std::uint32_t v : vertices) {
        place[v] = static_cast<std::uint32_t>(part.vertices.size());
        part.vertices.push_back(whole.vertices[v]);
        part.bones_kept += whole.vertices[v].kind == VertexKind::bone;
    }
    for (std::uint32_t a : arrows) {
        const FoldedArrow& arrow = whole.arrows[a];
        if (place[arrow.from] == none || place[arrow.to] == none) continue;
        part.arrows.push_back(arrow);
        part.arrows.back().from = place[arrow.from];
        part.arrows.back().to = place[arrow.to];
    }
    return part;
}

}  // namespace ligament
