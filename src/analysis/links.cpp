#include "ligament/links.hpp"

#include <algorithm>

#include "folding.hpp"

namespace ligament {

namespace {

/// The live edges of the bone grain, by the vertex that they leave.
struct Forward {
    std::vector<std::uint32_t> first;
    std::vector<PathEdge> edges;

    explicit Forward(const Dependencies& dependencies) : first(dependencies.bone.vertices.size() + 1, 0) {
        const Graph& graph = dependencies.bone;
        const auto each_live = [&](const auto& take) {
            for (VertexId to = 0; to < graph.vertices.size(); ++to)
                for (std::uint32_t edge = graph.rows[to]; edge < graph.rows[to + 1]; ++edge)
                    if (!dependencies.is_inert(graph.edges[edge])) take(graph.edges[edge].from, to, edge);
        };
        each_live([&](VertexId from, VertexId, std::uint32_t) { ++first[from + 1]; });
        for (std::size_t v = 1; v < first.size(); ++v) first[v] += first[v - 1];
        edges.resize(first.back());
        std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
        each_live([&](VertexId from, VertexId to, std::uint32_t edge) { edges[next[from]++] = {from, to, edge}; });
    }
    std::span<const PathEdge> of(VertexId v) const { return {edges.data() + first[v], edges.data() + first[v + 1]}; }
};

/// Searches from one bone after the other through what is no bone, and only where a reader lies ahead.
struct LinkSearch {
    const Dependencies& dependencies;
    const std::vector<bool>& is_reader;
    Forward forward;
    std::vector<bool> leads_on;        // to a reader, by vertex that is no bone
    std::vector<PathEdge> reached_by;  // by vertex, for the bone that is searched from
    std::vector<BoneId> reached_from;  // by vertex: the bone that it was reached from last
    std::vector<VertexId> going;

    LinkSearch(const Dependencies& all, const std::vector<bool>& readers)
        : dependencies(all),
          is_reader(readers),
          forward(all),
          leads_on(all.bone.vertices.size(), false),
          reached_by(all.bone.vertices.size()),
          reached_from(all.bone.vertices.size(), none) {
        const Graph& graph = dependencies.bone;
        for (BoneId bone = 0; bone < is_reader.size(); ++bone)
            if (is_reader[bone]) mark_behind(graph.first_of_bone[bone]);
        while (!going.empty()) {
            const VertexId v = going.back();
            going.pop_back();
            mark_behind(v);
        }
    }

    bool is_bone(VertexId v) const { return v < dependencies.bone.first_property; }

    void mark_behind(VertexId v) {
        for (const Edge& edge : dependencies.bone.needs(v)) {
            if (dependencies.is_inert(edge) || is_bone(edge.from) || leads_on[edge.from]) continue;
            leads_on[edge.from] = true;
            going.push_back(edge.from);
        }
    }

    FoldedEdge fold(BoneId from, VertexId end) const {
        std::vector<PathEdge> path;
        for (VertexId at = end; path.empty() || path.back().from != dependencies.bone.first_of_bone[from]; at = path.back().from)
            path.push_back(reached_by[at]);
        std::reverse(path.begin(), path.end());
        return fold_edges(dependencies.bone, path, from, dependencies.bone.vertices[end].element);
    }

    void add_links(BoneId from, std::vector<FoldedEdge>& links) {
        std::vector<VertexId> ends;
        going = {dependencies.bone.first_of_bone[from]};
        for (std::size_t i = 0; i < going.size(); ++i)
            for (const PathEdge& edge : forward.of(going[i])) {
                const bool is_end = is_bone(edge.to);
                const bool counts = is_end ? edge.to != going.front() && is_reader[dependencies.bone.vertices[edge.to].element]
                                           : leads_on[edge.to];
                if (!counts || reached_from[edge.to] == from) continue;
                reached_from[edge.to] = from;
                reached_by[edge.to] = edge;
                (is_end ? ends : going).push_back(edge.to);
            }
        std::sort(ends.begin(), ends.end());
        for (VertexId end : ends) links.push_back(fold(from, end));
    }
};

}  // namespace

std::vector<FoldedEdge> find_links(const Rig& rig, const Dependencies& dependencies, const std::vector<bool>& is_read,
                                   const std::vector<bool>& is_reader) {
    std::vector<FoldedEdge> links;
    LinkSearch search(dependencies, is_reader);
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone)
        if (is_read[bone]) search.add_links(bone, links);
    return links;
}

std::vector<FoldedEdge> find_links(const Rig& rig, const Dependencies& dependencies) {
    const std::vector<bool> all(rig.bones.size(), true);
    return find_links(rig, dependencies, all, all);
}

}  // namespace ligament
