// Which digraphs do the textbooks print? Each with its source, for figures that were worked out elsewhere.
#pragma once

#include <string_view>

#include "naive_graph.hpp"

namespace ligament::testing {

/// Every arc from one vertex to another.
Digraph complete(unsigned size);

/// Vertices as letters from `first` on: "ab bc" are the arcs a -> b and b -> c.
Digraph lettered(std::string_view arcs, char first);

/// Figure 1 of Johnson, SIAM J. Computing 4 (1975), of size k, as the tests of networkx build it (worst_case_graph).
Digraph johnsons_figure(unsigned k);

/// The flow graph of Lengauer and Tarjan, ACM TOPLAS 1 (1979): A to L are 0 to 11, the root R is 12.
Digraph lengauer_tarjan();

/// tinyDG of Sedgewick and Wayne, Algorithms, 4th edition (arcs from memory).
Digraph tiny_dg();

/// The example of strongly connected components in Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms (arcs from
/// memory): a to h are 0 to 7.
Digraph clrs_components();

}  // namespace ligament::testing
