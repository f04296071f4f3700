// In which order can bones be evaluated, and how deep is it? Kahn's method on the condensation of the bone grain.
#include <algorithm>

#include "components.hpp"
#include "ligament/facts.hpp"
#include "longest_chain.hpp"
#include "lowest_first.hpp"
#include "precedence.hpp"

namespace ligament {

namespace {

/// Works nodes off as their needs are met: those without bones at once, of the
/// others the one with the first bone in file order.
std::vector<BoneId> order_bones(const Precedence& precedence, const Condensation& live, VertexId bones) {
    const auto nodes = static_cast<std::uint32_t>(precedence.first.size() - 1);
    std::vector<std::uint32_t> waiting_for(nodes, 0);
    for (std::uint32_t node : precedence.after) ++waiting_for[node];
    LowestFirst ready(bones);  // the first bone of each node
    std::vector<std::uint32_t> at_once;
    const auto admit = [&](std::uint32_t node) {
        if (node < live.size() && live.of(node).front() < bones)
            ready.insert(live.of(node).front());
        else
            at_once.push_back(node);
    };
    for (std::uint32_t node = 0; node < nodes; ++node)
        if (waiting_for[node] == 0) admit(node);

    std::vector<BoneId> order;
    order.reserve(bones);
    while (!ready.empty() || !at_once.empty()) {
        std::uint32_t node = none;
        if (!at_once.empty()) {
            node = at_once.back();
            at_once.pop_back();
        } else {
            node = live.component_of[ready.take_lowest()];
            for (VertexId v : live.of(node))
                if (v < bones) order.push_back(v);
        }
        for (std::uint32_t i = precedence.first[node]; i < precedence.first[node + 1]; ++i)
            if (--waiting_for[precedence.after[i]] == 0) admit(precedence.after[i]);
    }
    return order;
}

/// By component: one more than the highest level of what it needs, or just that where it has no bone.
std::vector<std::uint32_t> find_depths(const Rows& rows, const Condensation& live, VertexId bones) {
    std::vector<std::uint32_t> depth(live.size(), 0);
    for (std::uint32_t c = 0; c < live.size(); ++c) {
        for (std::uint32_t v : live.of(c))
            for (std::uint32_t from : rows.of(v)) depth[c] = std::max(depth[c], depth[live.component_of[from]]);
        if (live.of(c).front() < bones) ++depth[c];
    }
    return depth;
}

/// The bones of components that have no cycle but need, straight or not, one that has.
std::vector<BoneId> find_blocked(const Rows& rows, const Condensation& live, VertexId bones) {
    std::vector<std::uint8_t> waits(live.size(), 0);  // for a cycle, or is one
    std::vector<BoneId> blocked;
    for (std::uint32_t c = 0; c < live.size(); ++c) {
        waits[c] = has_cycle(rows, live, c);
        if (waits[c]) continue;
        const std::uint32_t v = live.of(c).front();
        const std::span<const std::uint32_t> needs = rows.of(v);
        waits[c] =
            std::any_of(needs.begin(), needs.end(), [&](std::uint32_t from) { return waits[live.component_of[from]] != 0; });
        if (waits[c] && v < bones) blocked.push_back(v);
    }
    std::sort(blocked.begin(), blocked.end());
    return blocked;
}

}  // namespace

Order find_order(const Rig& rig, const Dependencies& dependencies) {
    const auto bones = static_cast<VertexId>(rig.bones.size());
    const Rows rows = live_rows(dependencies, dependencies.bone);
    const Condensation live = find_components(rows);
    const std::vector<std::uint32_t> depth = find_depths(rows, live, bones);
    Order order;
    order.bones = order_bones(find_precedence(dependencies, live), live, bones);
    order.level.reserve(bones);
    for (BoneId b = 0; b < bones; ++b) {
        const std::uint32_t level = depth[live.component_of[b]];
        order.level.push_back(level);
        if (order.levels.size() < level) order.levels.resize(level);
        order.levels[level - 1].push_back(b);
    }
    find_longest_chain(dependencies, live, depth, order);
    order.blocked = find_blocked(rows, live, bones);
    return order;
}

Order find_order_without(const Rig& rig, const Dependencies& dependencies, std::span<const MakerId> makers) {
    Dependencies left = dependencies_without(dependencies, makers);
    Graph& graph = left.bone;
    std::uint32_t kept = 0, first = 0;
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        const std::uint32_t end = graph.rows[v + 1];
        for (std::uint32_t e = first; e < end; ++e) {
            const bool is_out = left.gates[graph.edges[e].gate].off && !dependencies.gates[dependencies.bone.edges[e].gate].off;
            if (!is_out) graph.edges[kept++] = graph.edges[e];
        }
        first = end;
        graph.rows[v + 1] = kept;
    }
    graph.edges.resize(kept);
    return find_order(rig, left);
}

std::optional<Order> find_order_after_cuts(const Rig& rig, const Dependencies& dependencies, std::span<const CycleCuts> cuts) {
    std::vector<MakerId> makers;
    for (const CycleCuts& cycle : cuts)
        for (const CutMaker& maker : cycle.cut.makers) makers.push_back(maker.edge.maker);
    if (makers.empty()) return {};
    return find_order_without(rig, dependencies, makers);
}

}  // namespace ligament
