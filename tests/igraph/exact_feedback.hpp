// What does igraph say? Its exact feedback arc set (Debian libigraph-dev), by integer programming.
#pragma once

#include <igraph/igraph.h>

#include <cstdint>
#include <stdexcept>

#include "cut_problem.hpp"
#include "naive_graph.hpp"

namespace ligament::testing {

/// `degree` arcs out of each vertex, each an item of its own of a weight up to `heaviest`; arcs may repeat.
inline CutProblem random_digraph(unsigned size, unsigned degree, unsigned heaviest, unsigned seed) {
    Random random(seed);
    CutProblem problem;
    problem.vertices = size;
    for (unsigned u = 0; u < size; ++u)
        for (unsigned k = 0; k < degree; ++k) {
            const unsigned v = (u + 1 + random.below(size - 1)) % size;
            problem.arcs.push_back({u, v, {static_cast<std::uint32_t>(problem.weights.size())}});
            problem.weights.push_back(1 + random.below(heaviest));
        }
    return problem;
}

/// The weight of a lightest feedback arc set of a problem whose arcs have one item each.
inline std::uint64_t exact_feedback_weight(const CutProblem& problem) {
    igraph_vector_int_t ends, arcs;
    igraph_vector_t weights;
    igraph_t graph;
    igraph_vector_int_init(&ends, 0);
    igraph_vector_int_init(&arcs, 0);
    igraph_vector_init(&weights, 0);
    for (const CutArc& arc : problem.arcs) {
        igraph_vector_int_push_back(&ends, arc.from);
        igraph_vector_int_push_back(&ends, arc.to);
        igraph_vector_push_back(&weights, static_cast<double>(problem.weights[arc.items.front()]));
    }
    igraph_create(&graph, &ends, static_cast<igraph_integer_t>(problem.vertices), /*directed=*/true);
    if (igraph_feedback_arc_set(&graph, &arcs, &weights, IGRAPH_FAS_EXACT_IP) != IGRAPH_SUCCESS)
        throw std::runtime_error("igraph found no feedback arc set");
    double weight = 0;
    for (igraph_integer_t i = 0; i < igraph_vector_int_size(&arcs); ++i) weight += VECTOR(weights)[VECTOR(arcs)[i]];
    igraph_destroy(&graph);
    igraph_vector_destroy(&weights);
    igraph_vector_int_destroy(&arcs);
    igraph_vector_int_destroy(&ends);
    return static_cast<std::uint64_t>(weight + 0.5);
}

}  // namespace ligament::testing
