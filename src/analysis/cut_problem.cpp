#include "cut_problem.hpp"

#include <algorithm>
#include <iterator>

namespace ligament {

namespace {

/// Of each key that `keys_of(i)` names the numbers i, ascending.
template <class KeysOf>
Lists listed_by(std::size_t keys, std::size_t count, KeysOf keys_of) {
    Lists lists;
    lists.first.assign(keys + 1, 0);
    for (std::size_t i = 0; i < count; ++i)
        for (std::uint32_t key : keys_of(i)) ++lists.first[key + 1];
    for (std::size_t key = 0; key < keys; ++key) lists.first[key + 1] += lists.first[key];
    lists.numbers.resize(lists.first.back());
    std::vector<std::uint32_t> next(lists.first.begin(), lists.first.end() - 1);
    for (std::size_t i = 0; i < count; ++i)
        for (std::uint32_t key : keys_of(i)) lists.numbers[next[key]++] = static_cast<std::uint32_t>(i);
    return lists;
}

}  // namespace

CutIndex index_of(const CutProblem& problem) {
    const std::vector<CutArc>& arcs = problem.arcs;
    return {listed_by(problem.vertices, arcs.size(), [&](std::size_t a) { return std::span(&arcs[a].from, 1); }),
            listed_by(problem.vertices, arcs.size(), [&](std::size_t a) { return std::span(&arcs[a].to, 1); }),
            listed_by(problem.weights.size(), arcs.size(), [&](std::size_t a) { return std::span(arcs[a].items); }),
            listed_by(problem.weights.size(), problem.sets.size(), [&](std::size_t s) { return std::span(problem.sets[s]); })};
}

Items united(const Items& a, const Items& b) {
    Items all;
    all.reserve(a.size() + b.size());
    std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(all));
    return all;
}

bool is_part_of(const Items& part, const Items& whole) {
    return std::includes(whole.begin(), whole.end(), part.begin(), part.end());
}

bool shares_item(const Items& items, const std::vector<std::uint8_t>& is_chosen) {
    return std::any_of(items.begin(), items.end(), [&](std::uint32_t item) { return is_chosen[item] != 0; });
}

// Kahn's method: whoever has no arc coming in any more is taken away, and with it its arcs.
bool is_answer(const CutProblem& problem, const std::vector<std::uint8_t>& is_chosen) {
    for (const Items& set : problem.sets)
        if (!shares_item(set, is_chosen)) return false;
    std::vector<std::uint32_t> first(problem.vertices + 1, 0), coming(problem.vertices, 0), targets, ready;
    std::vector<std::uint8_t> is_left(problem.arcs.size());
    for (std::size_t a = 0; a < problem.arcs.size(); ++a) {
        is_left[a] = !shares_item(problem.arcs[a].items, is_chosen);
        if (is_left[a]) ++first[problem.arcs[a].from + 1], ++coming[problem.arcs[a].to];
    }
    for (std::uint32_t v = 0; v < problem.vertices; ++v) first[v + 1] += first[v];
    std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
    targets.resize(first.back());
    for (std::size_t a = 0; a < problem.arcs.size(); ++a)
        if (is_left[a]) targets[next[problem.arcs[a].from]++] = problem.arcs[a].to;
    for (std::uint32_t v = 0; v < problem.vertices; ++v)
        if (coming[v] == 0) ready.push_back(v);
    for (std::size_t i = 0; i < ready.size(); ++i)
        for (std::uint32_t k = first[ready[i]]; k < first[ready[i] + 1]; ++k)
            if (--coming[targets[k]] == 0) ready.push_back(targets[k]);
    return ready.size() == problem.vertices;
}

}  // namespace ligament
