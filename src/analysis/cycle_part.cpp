#include "cycle_part.hpp"

#include <utility>

namespace ligament {

PartCutter::PartCutter(const Rig& rig, const Dependencies& dependencies)
    : PartCutter(rig, dependencies, live_rows(dependencies, dependencies.bone)) {}

PartCutter::PartCutter(const Rig& rig, const Dependencies& dependencies, const Rows& rows)
    : dependencies_(dependencies),
      components_(find_components(rows)),
      graphs_(rig, dependencies, rows, components_),
      number_(3) {}

CyclePart PartCutter::cut_out(const Cycle& cycle, Grain grain) {
    const Graph& graph = graphs_.at(grain);
    const VertexId inside =
        cycle.bones.empty() ? dependencies_.bone.first_property + cycle.properties.front() : cycle.bones.front();
    CyclePart part{&graph, vertices_at(dependencies_, graph, components_.of(components_.component_of[inside])), {}, {}};
    std::vector<std::uint32_t>& number = number_[static_cast<std::size_t>(grain)];
    number.resize(graph.vertices.size(), none);
    for (std::uint32_t i = 0; i < part.vertices.size(); ++i) number[part.vertices[i]] = i;
    for (VertexId v : part.vertices) {
        for (std::uint32_t e = graph.rows[v]; e < graph.rows[v + 1]; ++e) {
            const Edge& edge = graph.edges[e];
            if (number[edge.from] == none || dependencies_.is_inert(edge)) continue;
            part.rows.needs.push_back(number[edge.from]);
            part.edges.push_back(e);
        }
        part.rows.first.push_back(static_cast<std::uint32_t>(part.rows.needs.size()));
    }
    for (VertexId v : part.vertices) number[v] = none;
    return part;
}

PartFolder::PartFolder(const Dependencies& dependencies, const CyclePart& part, bool between_properties)
    : dependencies_(dependencies),
      part_(part),
      between_properties_(between_properties),
      needed_by_(reversed(part.rows, part.rows.size())),
      seen_(part.rows.size(), 0) {}

std::uint32_t PartFolder::end_of(std::uint32_t v) const {
    const VertexId vertex = part_.vertices[v];
    if (!between_properties_) return dependencies_.bone_of(*part_.graph, vertex);
    return part_.graph->vertices[vertex].kind == VertexKind::property ? part_.graph->vertices[vertex].element : none;
}

std::uint32_t PartFolder::nearest(std::uint32_t start, const Rows& rows) {
    ++search_;
    queue_.assign(1, start);
    seen_[start] = search_;
    for (std::size_t i = 0; i < queue_.size(); ++i) {
        const std::uint32_t end = end_of(queue_[i]);
        if (end != none) return end;
        for (std::uint32_t next : rows.of(queue_[i]))
            if (seen_[next] != search_) {
                seen_[next] = search_;
                queue_.push_back(next);
            }
    }
    return none;
}

FoldedEdge PartFolder::fold(std::uint32_t from, std::uint32_t to, std::uint32_t position) {
    const Edge& edge = part_.graph->edges[part_.edges[position]];
    return {nearest(from, part_.rows), nearest(to, needed_by_), edge.kind(), edge.maker, {}};
}

}  // namespace ligament
