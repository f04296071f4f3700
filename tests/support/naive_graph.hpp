// What should graph algorithms find? Small digraphs, all of them if need be, and answers so simple that they can be trusted.
#pragma once

#include <cstdint>
#include <random>
#include <utility>
#include <vector>

namespace ligament::testing {

using Arcs = std::vector<std::pair<unsigned, unsigned>>;

/// A digraph as a matrix: arc[u][v] says that there is an arc from u to v.
struct Digraph {
    std::vector<std::vector<char>> arc;  // not bool, in whose bits GCC 12 sees an out-of-bounds index at -O3

    explicit Digraph(unsigned size) : arc(size, std::vector<char>(size, 0)) {}
    Digraph(unsigned size, const Arcs& arcs);
    unsigned size() const { return static_cast<unsigned>(arc.size()); }
    Arcs arcs() const;  ///< by start, then by end
};

/// The digraph whose possible arcs, by start, then by end, are the bits of `number` from the lowest on.
Digraph nth_digraph(unsigned size, bool with_loops, std::uint64_t number);
/// How many there are.
std::uint64_t count_digraphs(unsigned size, bool with_loops);

/// Numbers that are the same on every machine.
struct Random {
    std::mt19937 engine;

    explicit Random(unsigned seed) : engine(seed) {}
    unsigned below(unsigned limit) { return static_cast<unsigned>(engine() % limit); }
};

/// Warshall's closure (Journal of the ACM 9, 1962): reach[u][v] where a walk of at least one arc leads from u to v.
std::vector<std::vector<char>> naive_reach(const Digraph& graph);

/// By vertex the first vertex that it is strongly connected with, itself included.
std::vector<unsigned> naive_components(const Digraph& graph);

/// The fewest arcs of a closed walk through v, 0 when there is none.
unsigned naive_shortest_cycle(const Digraph& graph, unsigned v);

}  // namespace ligament::testing
