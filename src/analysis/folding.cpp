#include "folding.hpp"

#include <algorithm>
#include <utility>

#include "fewest.hpp"

namespace ligament {

FoldedEdge fold_edges(const Graph& graph, std::span<const PathEdge> edges, std::uint32_t from, std::uint32_t to) {
    const Edge& first = graph.edges[edges.front().edge];
    FoldedEdge folded{from, to, first.kind(), first.maker, {}};
    for (const PathEdge& step : edges.subspan(1)) {
        const MakerId maker = graph.edges[step.edge].maker;
        if (maker != (folded.through.empty() ? folded.maker : folded.through.back())) folded.through.push_back(maker);
    }
    return folded;
}

std::vector<FoldedEdge> fold_closed_walk(const Dependencies& dependencies, const Graph& graph, std::vector<PathEdge> walk) {
    const bool has_bones =
        std::any_of(walk.begin(), walk.end(), [&](const PathEdge& step) { return step.from < graph.first_property; });
    const auto end_of = [&](VertexId v) -> std::uint32_t {
        if (has_bones) return dependencies.bone_of(graph, v);
        return graph.vertices[v].kind == VertexKind::property ? graph.vertices[v].element : none;
    };
    const auto leaves = [&](const PathEdge& step) {
        return has_bones ? leaves_a_bone(graph, graph.edges[step.edge]) : end_of(step.from) != none;
    };
    std::vector<FoldedEdge> folded;
    const auto start = std::find_if(walk.begin(), walk.end(), leaves);
    if (start == walk.end()) return folded;
    std::rotate(walk.begin(), start, walk.end());
    for (std::size_t i = 0; i < walk.size(); ++i) {
        if (!leaves(walk[i])) continue;  // on the way inside a bone
        const std::size_t first = i;
        while (end_of(walk[i].to) == none) ++i;
        folded.push_back(
            fold_edges(graph, std::span(walk).subspan(first, i - first + 1), end_of(walk[first].from), end_of(walk[i].to)));
    }
    const auto earlier = [](const FoldedEdge& a, const FoldedEdge& b) {
        return std::pair(a.from, a.to) < std::pair(b.from, b.to);
    };
    std::rotate(folded.begin(), std::min_element(folded.begin(), folded.end(), earlier), folded.end());
    return folded;
}

}  // namespace ligament
