#include "hand_csr.hpp"

#include <algorithm>
#include <limits>

namespace ligament::perf {

namespace {

using Numbers = std::vector<std::uint32_t>;
constexpr std::uint32_t unset = std::numeric_limits<std::uint32_t>::max();

/// Of v: who needs it.
struct Csr {
    Numbers first, next;

    std::uint32_t size() const { return static_cast<std::uint32_t>(first.size() - 1); }
};

Csr build(std::uint32_t vertices, const std::vector<Arc>& arcs) {
    Csr csr;
    csr.first.assign(vertices + 1, 0);
    for (const Arc& arc : arcs) ++csr.first[arc.from + 1];
    for (std::uint32_t v = 0; v < vertices; ++v) csr.first[v + 1] += csr.first[v];
    csr.next.resize(arcs.size());
    Numbers at(csr.first.begin(), csr.first.end() - 1);
    for (const Arc& arc : arcs) csr.next[at[arc.from]++] = arc.to;
    return csr;
}

/// Tarjan (1972) with a stack of its own. Components are numbered after all that need them.
std::uint32_t number_components(const Csr& csr, Numbers& component) {
    const std::uint32_t size = csr.size();
    Numbers index(size, unset), low(size), at(csr.first.begin(), csr.first.end() - 1), path, open;
    component.assign(size, unset);
    std::uint32_t count = 0, clock = 0;
    for (std::uint32_t root = 0; root < size; ++root) {
        if (index[root] != unset) continue;
        index[root] = low[root] = clock++;
        path.push_back(root);
        open.push_back(root);
        while (!path.empty()) {
            const std::uint32_t v = path.back();
            if (at[v] < csr.first[v + 1]) {
                const std::uint32_t to = csr.next[at[v]++];
                if (index[to] == unset) {
                    index[to] = low[to] = clock++;
                    path.push_back(to);
                    open.push_back(to);
                } else if (component[to] == unset) {
                    low[v] = std::min(low[v], index[to]);
                }
                continue;
            }
            path.pop_back();
            if (!path.empty()) low[path.back()] = std::min(low[path.back()], low[v]);
            if (low[v] != index[v]) continue;
            std::uint32_t member = unset;
            do {
                member = open.back();
                open.pop_back();
                component[member] = count;
            } while (member != v);
            ++count;
        }
    }
    return count;
}

struct Sorted {
    std::uint32_t done = 0, levels = 0;  ///< vertices that have a level, and how many levels there are
};

/// Kahn (1962).
Sorted sort(const Csr& csr) {
    const std::uint32_t size = csr.size();
    Numbers waits(size, 0), level(size, 1), ready;
    ready.reserve(size);
    for (const std::uint32_t to : csr.next) ++waits[to];
    for (std::uint32_t v = 0; v < size; ++v)
        if (waits[v] == 0) ready.push_back(v);
    Sorted sorted;
    for (; sorted.done < ready.size(); ++sorted.done) {
        const std::uint32_t v = ready[sorted.done];
        sorted.levels = std::max(sorted.levels, level[v]);
        for (std::uint32_t i = csr.first[v]; i < csr.first[v + 1]; ++i) {
            const std::uint32_t to = csr.next[i];
            level[to] = std::max(level[to], level[v] + 1);
            if (--waits[to] == 0) ready.push_back(to);
        }
    }
    return sorted;
}

Csr condense(const EdgeList& list, const Numbers& component, std::uint32_t count) {
    std::vector<Arc> arcs;
    arcs.reserve(list.arcs.size());
    for (const Arc& arc : list.arcs)
        if (component[arc.from] != component[arc.to]) arcs.push_back({component[arc.from], component[arc.to]});
    return build(count, arcs);
}

std::uint32_t count_unreached(const Csr& csr, const EdgeList& list) {
    std::vector<std::uint8_t> seen(csr.size(), 0);
    Numbers queue;
    queue.reserve(csr.size());
    for (const std::uint32_t start : list.starts)
        if (!seen[start]) seen[start] = 1, queue.push_back(start);
    for (std::size_t head = 0; head < queue.size(); ++head)
        for (std::uint32_t i = csr.first[queue[head]]; i < csr.first[queue[head] + 1]; ++i)
            if (!seen[csr.next[i]]) seen[csr.next[i]] = 1, queue.push_back(csr.next[i]);
    std::uint32_t unreached = 0;
    for (const Arc& range : list.arrivals)
        unreached += std::all_of(seen.begin() + range.from, seen.begin() + range.to, [](auto s) { return s == 0; }) ? 1U : 0U;
    return unreached;
}

}  // namespace

Found walk_by_hand(const EdgeList& list) {
    const Csr csr = build(list.vertices, list.arcs);
    Numbers component;
    Found found;
    found.components = number_components(csr, component);
    found.levels =
        found.components == list.vertices ? sort(csr).levels : sort(condense(list, component, found.components)).levels;
    found.unreached = count_unreached(csr, list);
    return found;
}

Found walk_by_hand_kahn_first(const EdgeList& list) {
    const Csr csr = build(list.vertices, list.arcs);
    Found found{.components = list.vertices};
    const Sorted sorted = sort(csr);
    found.levels = sorted.levels;
    if (sorted.done < list.vertices) {
        Numbers component;
        found.components = number_components(csr, component);
        found.levels = sort(condense(list, component, found.components)).levels;
    }
    found.unreached = count_unreached(csr, list);
    return found;
}

}  // namespace ligament::perf
