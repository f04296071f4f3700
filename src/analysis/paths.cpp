// What does this need, what does it move, and by which path? Searches from one end point to another or to all bones.
#include <algorithm>
#include <array>
#include <deque>

#include "fewest.hpp"
#include "ligament/facts.hpp"

namespace ligament {

namespace {

std::vector<VertexId> vertices_of(const Graph& graph, Endpoint endpoint) {
    std::vector<VertexId> vertices;
    if (endpoint.bone != none)
        for (VertexId v = graph.first_of_bone[endpoint.bone]; v < graph.first_of_bone[endpoint.bone + 1]; ++v)
            vertices.push_back(v);
    if (endpoint.property != none) vertices.push_back(graph.first_property + endpoint.property);
    if (endpoint.object != none) vertices.push_back(graph.first_object + endpoint.object);
    return vertices;
}

template <class Price>  // (to, edge)
PricedRows price_live(const Dependencies& dependencies, const Graph& graph, Price price) {
    PricedRows priced;
    priced.rows.first.reserve(graph.vertices.size() + 1);
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        for (std::uint32_t e = graph.rows[v]; e < graph.rows[v + 1]; ++e) {
            if (dependencies.is_inert(graph.edges[e])) continue;
            priced.rows.needs.push_back(graph.edges[e].from);
            priced.price.push_back(price(v, graph.edges[e]) ? 1 : 0);
            priced.edge.push_back(e);
        }
        priced.rows.first.push_back(static_cast<std::uint32_t>(priced.rows.needs.size()));
    }
    return priced;
}

/// The same edges the other way round.
PricedRows turned(const PricedRows& priced) {
    const std::uint32_t size = priced.rows.size();
    PricedRows result{reversed(priced.rows, size), std::vector<std::uint8_t>(priced.price.size()), {}};
    std::vector<std::uint32_t> next(result.rows.first.begin(), result.rows.first.end() - 1);
    for (std::uint32_t v = 0; v < size; ++v)
        for (std::uint32_t position = priced.rows.first[v]; position < priced.rows.first[v + 1]; ++position)
            result.price[next[priced.rows.needs[position]]++] = priced.price[position];
    return result;
}

/// By vertex the lowest price at which it is reached from `starts` along the rows, else none. Linear.
std::vector<std::uint32_t> lowest_prices(const PricedRows& graph, const std::vector<VertexId>& starts) {
    std::vector<std::uint32_t> lowest(graph.rows.size(), none);
    std::deque<VertexId> queue(starts.begin(), starts.end());
    for (VertexId v : starts) lowest[v] = 0;
    std::vector<std::uint8_t> done(graph.rows.size(), 0);
    while (!queue.empty()) {
        const VertexId v = queue.front();
        queue.pop_front();
        if (done[v]) continue;
        done[v] = 1;
        for (std::uint32_t position = graph.rows.first[v]; position < graph.rows.first[v + 1]; ++position) {
            const VertexId next = graph.rows.needs[position];
            const std::uint32_t price = lowest[v] + graph.price[position];
            if (price >= lowest[next]) continue;
            lowest[next] = price;
            if (graph.price[position] == 0)
                queue.push_front(next);
            else
                queue.push_back(next);
        }
    }
    return lowest;
}

}  // namespace

std::vector<PathEdge> find_path(const Rig& rig, const Dependencies& dependencies, Grain grain, Endpoint from, Endpoint to) {
    return std::move(find_paths(rig, dependencies, grain, std::array{PathEnds{from, to}}).front());
}

std::vector<std::vector<PathEdge>> find_paths(const Rig& rig, const Dependencies& dependencies, Grain grain,
                                              std::span<const PathEnds> ends) {
    const Graph& graph = dependencies.at(rig, grain);
    const PricedRows priced =
        price_live(dependencies, graph, [&](VertexId, const Edge& edge) { return leaves_a_bone(graph, edge); });
    FewestSearch search(priced);
    std::vector<std::vector<PathEdge>> paths;
    for (const auto& [from, to] : ends) {
        const Walk walk = search.find(vertices_of(graph, from), vertices_of(graph, to), /*starts_by_leaving=*/from.bone != none);
        std::vector<PathEdge>& path = paths.emplace_back();
        for (std::uint32_t position : walk.positions)
            path.push_back({priced.rows.needs[position], walk.end, priced.edge[position]});
        for (std::size_t i = 0; i + 1 < path.size(); ++i) path[i].to = path[i + 1].from;
    }
    return paths;
}

std::vector<std::uint32_t> find_reach(const Rig& rig, const Dependencies& dependencies, Grain grain, Endpoint endpoint,
                                      bool forward) {
    const Graph& graph = dependencies.at(rig, grain);
    // Counted are the bones that are entered, whichever way the edges are followed.
    const PricedRows priced = price_live(dependencies, graph, [&](VertexId to, const Edge& edge) {
        return edge.kind() != EdgeKind::order && (forward ? to : edge.from) < graph.first_property;
    });
    const std::vector<std::uint32_t> lowest = lowest_prices(forward ? turned(priced) : priced, vertices_of(graph, endpoint));
    std::vector<std::uint32_t> reach(rig.bones.size(), none);
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        for (VertexId v = graph.first_of_bone[b]; v < graph.first_of_bone[b + 1]; ++v) reach[b] = std::min(reach[b], lowest[v]);
    return reach;
}

}  // namespace ligament
