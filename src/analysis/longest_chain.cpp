#include "longest_chain.hpp"

#include <algorithm>
#include <utility>

#include "folding.hpp"

namespace ligament {

namespace {

/// A search from the bones of one component back over what is no bone to the bones of the level before. What is no bone is
/// looked at again only on the way into and out of the cycle that it is in, so that all searches together are linear.
struct BackSearch {
    const Dependencies& dependencies;
    const Graph& graph;
    const Condensation& live;
    const std::vector<std::uint32_t>& depth;
    std::vector<std::uint32_t> seen_in;  ///< by vertex: the last search that came by
    std::vector<PathEdge> onward;        ///< by vertex: the edge by which it was found
    std::uint32_t search = 0;

    BackSearch(const Dependencies& d, const Condensation& l, const std::vector<std::uint32_t>& levels)
        : dependencies(d),
          graph(d.bone),
          live(l),
          depth(levels),
          seen_in(graph.vertices.size(), 0),
          onward(graph.vertices.size()) {}

    /// The edges from the first bone in file order that stands on level `before` to a bone of the component.
    std::vector<PathEdge> find(std::uint32_t component, std::uint32_t before) {
        ++search;
        BoneId best = none;
        std::vector<VertexId> queue;
        for (VertexId v : live.of(component))
            if (v < graph.first_property) queue.push_back(v);
        for (std::size_t head = 0; head < queue.size(); ++head) {
            const VertexId v = queue[head];
            for (std::uint32_t e = graph.rows[v]; e < graph.rows[v + 1]; ++e) {
                const VertexId from = graph.edges[e].from;
                if (dependencies.is_inert(graph.edges[e]) || seen_in[from] == search) continue;
                const std::uint32_t home = live.component_of[from];
                const bool is_bone = from < graph.first_property;
                if (home == component ? is_bone : depth[home] != before) continue;
                seen_in[from] = search;
                onward[from] = {from, v, e};
                if (is_bone)
                    best = std::min(best, from);
                else
                    queue.push_back(from);
            }
        }
        std::vector<PathEdge> path{onward[best]};
        while (path.back().to >= graph.first_property) path.push_back(onward[path.back().to]);
        return path;
    }
};

}  // namespace

void find_longest_chain(const Dependencies& dependencies, const Condensation& live, const std::vector<std::uint32_t>& depth,
                        Order& order) {
    if (order.levels.empty()) return;
    BackSearch search(dependencies, live, depth);
    BoneId bone = order.levels.back().front();
    order.longest_chain.push_back(bone);
    for (auto before = static_cast<std::uint32_t>(order.levels.size() - 1); before > 0; --before) {
        const std::vector<PathEdge> path = search.find(live.component_of[bone], before);
        bone = path.front().from;
        order.longest_chain.push_back(bone);
        order.longest_chain_edges.push_back(fold_edges(dependencies.bone, path, bone, path.back().to));
    }
    std::reverse(order.longest_chain.begin(), order.longest_chain.end());
    std::reverse(order.longest_chain_edges.begin(), order.longest_chain_edges.end());
}

}  // namespace ligament
