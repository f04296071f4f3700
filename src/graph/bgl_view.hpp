// How does Boost.Graph see our compressed rows? A read-only view as its VertexListGraph and IncidenceGraph, without a copy.
#pragma once

#include <boost/graph/graph_traits.hpp>
#include <boost/iterator/counting_iterator.hpp>
#include <boost/iterator/iterator_facade.hpp>
#include <cstdint>
#include <span>
#include <utility>

namespace ligament {

/// Compressed rows as a Boost graph: the out-edges of vertex v go to targets[rows[v]] up to targets[rows[v + 1]]. 32-bit
/// descriptors. The rows must outlive the view.
struct BglView {
    std::span<const std::uint32_t> rows;
    std::span<const std::uint32_t> targets;
};

/// An edge is its position in the targets and the vertex it leaves.
struct BglEdge {
    std::uint32_t from = 0;
    std::uint32_t position = 0;

    friend bool operator==(const BglEdge&, const BglEdge&) = default;
};

class BglOutEdges
    : public boost::iterator_facade<BglOutEdges, BglEdge, boost::random_access_traversal_tag, BglEdge, std::int64_t> {
  public:
    BglOutEdges() = default;
    explicit BglOutEdges(BglEdge edge) : edge_(edge) {}

  private:
    friend class boost::iterator_core_access;
    BglEdge dereference() const { return edge_; }
    bool equal(const BglOutEdges& other) const { return edge_.position == other.edge_.position; }
    void increment() { ++edge_.position; }
    void decrement() { --edge_.position; }
    void advance(std::int64_t n) { edge_.position = static_cast<std::uint32_t>(edge_.position + n); }
    std::int64_t distance_to(const BglOutEdges& other) const {
        return std::int64_t{other.edge_.position} - std::int64_t{edge_.position};
    }

    BglEdge edge_;
};

// What Boost's algorithms look up beside the view, by argument-dependent lookup.
inline std::uint32_t num_vertices(const BglView& g) { return static_cast<std::uint32_t>(g.rows.size() - 1); }
inline std::pair<boost::counting_iterator<std::uint32_t>, boost::counting_iterator<std::uint32_t>> vertices(const BglView& g) {
    return {boost::counting_iterator<std::uint32_t>(0), boost::counting_iterator<std::uint32_t>(num_vertices(g))};
}
inline std::uint32_t out_degree(std::uint32_t v, const BglView& g) { return g.rows[v + 1] - g.rows[v]; }
inline std::pair<BglOutEdges, BglOutEdges> out_edges(std::uint32_t v, const BglView& g) {
    return {BglOutEdges({v, g.rows[v]}), BglOutEdges({v, g.rows[v + 1]})};
}
inline std::uint32_t source(BglEdge edge, const BglView&) { return edge.from; }
inline std::uint32_t target(BglEdge edge, const BglView& g) { return g.targets[edge.position]; }

}  // namespace ligament

namespace boost {

template <>
struct graph_traits<ligament::BglView> {
    struct traversal_category : vertex_list_graph_tag, incidence_graph_tag {};
    using vertex_descriptor = std::uint32_t;
    using edge_descriptor = ligament::BglEdge;
    using directed_category = directed_tag;
    using edge_parallel_category = allow_parallel_edge_tag;
    using vertices_size_type = std::uint32_t;
    using edges_size_type = std::uint32_t;
    using degree_size_type = std::uint32_t;
    using vertex_iterator = counting_iterator<std::uint32_t>;
    using out_edge_iterator = ligament::BglOutEdges;
    static vertex_descriptor null_vertex() { return ~std::uint32_t{0}; }
};

}  // namespace boost
