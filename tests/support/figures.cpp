#include "figures.hpp"

#include <algorithm>

namespace ligament::testing {

Digraph complete(unsigned size) {
    Digraph graph(size);
    for (unsigned u = 0; u < size; ++u)
        for (unsigned v = 0; v < size; ++v) graph.arc[u][v] = u != v;
    return graph;
}

Digraph lettered(std::string_view arcs, char first) {
    Arcs pairs;
    unsigned size = 0;
    for (std::size_t i = 0; i + 1 < arcs.size(); i += 3) {
        pairs.emplace_back(arcs[i] - first, arcs[i + 1] - first);
        size = std::max({size, pairs.back().first + 1, pairs.back().second + 1});
    }
    return Digraph(size, pairs);
}

Digraph johnsons_figure(unsigned k) {
    Digraph graph(3 * k + 3);
    const auto add = [&](unsigned from, unsigned to) { graph.arc[from - 1][to - 1] = 1; };
    for (unsigned n = 2; n < k + 2; ++n) add(1, n), add(n, k + 2);
    add(2 * k + 1, 1);
    for (unsigned n = k + 2; n < 2 * k + 2; ++n) add(n, 2 * k + 2), add(n, n + 1);
    add(2 * k + 3, k + 2);
    for (unsigned n = 2 * k + 3; n < 3 * k + 3; ++n) add(2 * k + 2, n), add(n, 3 * k + 3);
    add(3 * k + 3, 2 * k + 2);
    return graph;
}

Digraph lengauer_tarjan() {
    return lettered("MA MB MC AD BA BD BE CF CG DL EH FI GI GJ HE HK IK JI KI KM LH", 'A');  // M for R
}

Digraph tiny_dg() {
    return Digraph(13, {{4, 2},   {2, 3},  {3, 2}, {6, 0}, {0, 1}, {2, 0}, {11, 12}, {12, 9}, {9, 10}, {9, 11}, {7, 9},
                        {10, 12}, {11, 4}, {4, 3}, {3, 5}, {6, 8}, {8, 6}, {5, 4},   {0, 5},  {6, 4},  {6, 9},  {7, 6}});
}

Digraph clrs_components() { return lettered("ab bc be bf cd cg dc dh ea ef fg gf gh hh", 'a'); }

}  // namespace ligament::testing
