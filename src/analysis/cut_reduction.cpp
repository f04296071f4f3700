#include "cut_reduction.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "components.hpp"

namespace ligament {

namespace {

/// Arcs and sets that are compared all with all where there are at most so many.
constexpr std::size_t few = 64;
/// Problems of more places of items than this keep items that others outdo.
constexpr std::size_t many_places = 200'000;

/// Fewer items first.
bool comes_before(const Items& a, const Items& b) { return a.size() != b.size() ? a.size() < b.size() : a < b; }

/// How often all rules are tried again after one of them has changed something.
constexpr int rounds = 16;

struct Reducer {
    CutProblem& problem;
    std::vector<std::uint8_t> is_gone{};                  ///< by arc
    std::vector<std::vector<std::uint32_t>> in{}, out{};  ///< by vertex: arcs, and some that are gone
    std::vector<std::uint32_t> in_count{}, out_count{};   ///< those that are not
    std::vector<std::uint32_t> places{};                  ///< by item: how many arcs and sets hold it
    Items chosen{};

    // ---- Places of items

    void count(const Items& items, int by) {
        for (std::uint32_t item : items) places[item] += static_cast<std::uint32_t>(by);
    }
    void count_places() {
        places.assign(problem.weights.size(), 0);
        for (const CutArc& arc : problem.arcs) count(arc.items, 1);
        for (const Items& set : problem.sets) count(set, 1);
    }
    bool is_better(std::uint32_t a, std::uint32_t b) const {
        return std::pair(problem.weights[a], a) < std::pair(problem.weights[b], b);
    }
    /// Of the items that stand nowhere else only the best one counts. `items` are counted.
    void keep_best_of_own(Items& items) {
        std::uint32_t best = none;
        for (std::uint32_t item : items)
            if (places[item] == 1 && (best == none || is_better(item, best))) best = item;
        std::erase_if(items, [&](std::uint32_t item) {
            if (places[item] != 1 || item == best) return false;
            places[item] = 0;
            return true;
        });
    }

    // ---- Arcs

    void drop(std::uint32_t arc) {
        is_gone[arc] = 1;
        --out_count[problem.arcs[arc].from];
        --in_count[problem.arcs[arc].to];
        count(problem.arcs[arc].items, -1);
    }
    void forget_gone(std::vector<std::uint32_t>& arcs) {
        std::erase_if(arcs, [&](std::uint32_t arc) { return is_gone[arc] != 0; });
    }
    /// Whether an arc beside the new one makes it needless; those that it makes needless go.
    bool is_outdone(const CutArc& added) {
        if (out_count[added.from] > few) return false;
        std::vector<std::uint32_t>& beside = out[added.from];
        if (beside.size() > 2 * few) forget_gone(beside);
        for (std::uint32_t arc : beside) {
            if (is_gone[arc] || problem.arcs[arc].to != added.to) continue;
            if (is_part_of(problem.arcs[arc].items, added.items)) return true;
            if (is_part_of(added.items, problem.arcs[arc].items)) drop(arc);
        }
        return false;
    }
    void add(CutArc added) {
        if (added.from == added.to) {
            count(added.items, 1);
            keep_best_of_own(added.items);
            problem.sets.push_back(std::move(added.items));
            return;
        }
        if (is_outdone(added)) return;
        count(added.items, 1);
        keep_best_of_own(added.items);
        const auto number = static_cast<std::uint32_t>(problem.arcs.size());
        out[added.from].push_back(number);
        in[added.to].push_back(number);
        ++out_count[added.from];
        ++in_count[added.to];
        problem.arcs.push_back(std::move(added));
        is_gone.push_back(0);
    }

    /// Only the arcs inside strongly connected components stay; arcs from a vertex to itself become sets.
    void keep_cyclic_arcs() {
        Rows rows;
        std::vector<std::uint32_t> from;
        std::sort(problem.arcs.begin(), problem.arcs.end(), [](const CutArc& a, const CutArc& b) {
            if (std::pair(a.to, a.from) != std::pair(b.to, b.from)) return std::pair(a.to, a.from) < std::pair(b.to, b.from);
            return comes_before(a.items, b.items);
        });
        std::size_t next = 0;
        for (std::uint32_t v = 0; v < problem.vertices; ++v) {
            for (; next < problem.arcs.size() && problem.arcs[next].to == v; ++next)
                rows.needs.push_back(problem.arcs[next].from);
            rows.first.push_back(static_cast<std::uint32_t>(rows.needs.size()));
        }
        const Condensation components = find_components(rows);
        std::vector<CutArc> old = std::move(problem.arcs);
        problem.arcs.clear();
        is_gone.clear();
        in.assign(problem.vertices, {});
        out.assign(problem.vertices, {});
        in_count.assign(problem.vertices, 0);
        out_count.assign(problem.vertices, 0);
        places.assign(problem.weights.size(), 0);
        for (const Items& set : problem.sets) count(set, 1);
        // Counted before any is added, so that no item counts as an arc's own while other arcs with it are still to come.
        std::erase_if(old,
                      [&](const CutArc& arc) { return components.component_of[arc.from] != components.component_of[arc.to]; });
        for (const CutArc& arc : old) count(arc.items, 1);
        for (CutArc& arc : old) {
            count(arc.items, -1);
            add(std::move(arc));
        }
    }

    /// Arcs in and arcs out, joined each with each, stand for a vertex between them. Counts tell first whether that can be: a
    /// vertex of many arcs is asked each time that one of them goes. `neighbours` takes who had arcs with it.
    bool eliminate(std::uint32_t v, std::vector<std::uint32_t>& neighbours) {
        if (in_count[v] != 1 && out_count[v] != 1) return false;
        const bool has_one_in = in_count[v] == 1;
        std::vector<std::uint32_t>& single = has_one_in ? in[v] : out[v];
        forget_gone(single);
        const std::uint32_t joint = single.front();
        const std::size_t other_count = has_one_in ? out_count[v] : in_count[v];
        if ((other_count - std::min<std::size_t>(other_count, 1)) * problem.arcs[joint].items.size() > few) return false;
        forget_gone(has_one_in ? out[v] : in[v]);
        const std::vector<std::uint32_t> others = has_one_in ? out[v] : in[v];
        neighbours.clear();
        for (std::uint32_t arc : in[v]) neighbours.push_back(problem.arcs[arc].from);
        for (std::uint32_t arc : out[v]) neighbours.push_back(problem.arcs[arc].to);
        std::vector<CutArc> joined;
        for (std::uint32_t other : others) {
            const std::uint32_t first = has_one_in ? joint : other, second = has_one_in ? other : joint;
            joined.push_back({problem.arcs[first].from, problem.arcs[second].to,
                              united(problem.arcs[first].items, problem.arcs[second].items)});
            count(joined.back().items, 1);
        }
        drop(joint);
        for (std::uint32_t other : others) drop(other);
        in[v].clear();
        out[v].clear();
        for (CutArc& arc : joined) {
            count(arc.items, -1);
            add(std::move(arc));
        }
        return true;
    }

    void eliminate_all() {
        std::vector<std::uint32_t> going(problem.vertices);
        std::iota(going.rbegin(), going.rend(), 0U);
        std::vector<std::uint8_t> waits(problem.vertices, 1);
        std::vector<std::uint32_t> neighbours;
        while (!going.empty()) {
            const std::uint32_t v = going.back();
            going.pop_back();
            waits[v] = 0;
            if (!eliminate(v, neighbours)) continue;
            for (std::uint32_t u : neighbours)
                if (!waits[u]) {
                    waits[u] = 1;
                    going.push_back(u);
                }
        }
        std::size_t kept = 0;
        for (std::size_t a = 0; a < problem.arcs.size(); ++a)
            if (!is_gone[a]) {
                if (kept != a) problem.arcs[kept] = std::move(problem.arcs[a]);
                ++kept;
            }
        problem.arcs.resize(kept);
    }

    // ---- Items

    /// An item goes where another one stands in all its places and is better. True when one went.
    bool drop_outdone_items() {
        count_places();
        if (std::accumulate(places.begin(), places.end(), std::size_t{0}) > many_places) return false;
        std::vector<Items*> holders;
        for (CutArc& arc : problem.arcs) holders.push_back(&arc.items);
        for (Items& set : problem.sets) holders.push_back(&set);
        std::vector<std::vector<std::uint32_t>> held_by(places.size());
        for (std::uint32_t h = 0; h < holders.size(); ++h)
            for (std::uint32_t item : *holders[h]) held_by[item].push_back(h);
        bool any = false;
        for (std::uint32_t item = 0; item < places.size(); ++item) {
            if (held_by[item].empty() || held_by[item].size() > few) continue;
            const auto holds = [&](std::uint32_t other) {
                return std::all_of(held_by[item].begin(), held_by[item].end(), [&](std::uint32_t h) {
                    return std::binary_search(holders[h]->begin(), holders[h]->end(), other);
                });
            };
            const Items& candidates = *holders[held_by[item].front()];
            const bool outdone =
                candidates.size() <= 4 * few && std::any_of(candidates.begin(), candidates.end(), [&](std::uint32_t other) {
                    return other != item && places[other] >= places[item] && is_better(other, item) && holds(other);
                });
            if (!outdone) continue;
            for (std::uint32_t h : held_by[item]) std::erase(*holders[h], item);
            any = true;
        }
        return any;
    }

    /// Chooses items that are alone in a set. True when one was chosen.
    bool choose_forced() {
        std::vector<std::uint8_t> is_chosen(problem.weights.size(), 0);
        bool any = false;
        for (const Items& set : problem.sets)
            if (set.size() == 1 && !is_chosen[set.front()]) {
                is_chosen[set.front()] = 1;
                chosen.push_back(set.front());
                any = true;
            }
        if (!any) return false;
        std::erase_if(problem.arcs, [&](const CutArc& arc) { return shares_item(arc.items, is_chosen); });
        std::erase_if(problem.sets, [&](const Items& set) { return shares_item(set, is_chosen); });
        return true;
    }

    /// Each set once, and where there are few none that holds another one.
    void drop_outdone_sets() {
        std::vector<Items>& sets = problem.sets;
        std::sort(sets.begin(), sets.end(), comes_before);
        sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
        if (sets.size() > 8 * few) return;
        std::vector<Items> kept;
        for (Items& set : sets)
            if (std::none_of(kept.begin(), kept.end(), [&](const Items& other) { return is_part_of(other, set); }))
                kept.push_back(std::move(set));
        sets = std::move(kept);
    }

    void run() {
        bool changed = true;
        for (int round = 0; changed && round < rounds; ++round) {
            keep_cyclic_arcs();
            eliminate_all();
            drop_outdone_sets();
            changed = choose_forced();
            if (drop_outdone_items()) changed = true;
        }
    }
};

/// Sets of numbers that grow together.
struct Groups {
    std::vector<std::uint32_t> parent;

    explicit Groups(std::size_t size) : parent(size) { std::iota(parent.begin(), parent.end(), 0U); }
    std::uint32_t of(std::uint32_t i) {
        while (parent[i] != i) i = parent[i] = parent[parent[i]];
        return i;
    }
    void join(std::uint32_t a, std::uint32_t b) {
        a = of(a), b = of(b);
        parent[std::max(a, b)] = std::min(a, b);
    }
};

std::vector<CutPart> split_parts(const CutProblem& problem) {
    const auto items = static_cast<std::uint32_t>(problem.weights.size());
    Groups groups(items + problem.vertices);
    for (const CutArc& arc : problem.arcs) {
        groups.join(items + arc.from, items + arc.to);
        for (std::uint32_t item : arc.items) groups.join(item, items + arc.from);
    }
    for (const Items& set : problem.sets)
        for (std::uint32_t item : set) groups.join(item, set.front());
    std::vector<std::uint32_t> part_of(groups.parent.size(), none), number(groups.parent.size(), none);
    std::vector<CutPart> parts;
    const auto part_at = [&](std::uint32_t i) -> CutPart& {
        std::uint32_t& part = part_of[groups.of(i)];
        if (part == none) {
            part = static_cast<std::uint32_t>(parts.size());
            parts.emplace_back();
        }
        return parts[part];
    };
    std::vector<std::uint8_t> is_held(items, 0);
    for (const CutArc& arc : problem.arcs)
        for (std::uint32_t item : arc.items) is_held[item] = 1;
    for (const Items& set : problem.sets)
        for (std::uint32_t item : set) is_held[item] = 1;
    for (std::uint32_t item = 0; item < items; ++item) {
        if (!is_held[item]) continue;
        CutPart& part = part_at(item);
        number[item] = static_cast<std::uint32_t>(part.items.size());
        part.items.push_back(item);
        part.problem.weights.push_back(problem.weights[item]);
    }
    const auto renumber = [&](Items all) {
        for (std::uint32_t& item : all) item = number[item];
        return all;
    };
    for (const CutArc& arc : problem.arcs) {
        CutPart& part = part_at(items + arc.from);
        for (std::uint32_t v : {arc.from, arc.to})
            if (number[items + v] == none) number[items + v] = part.problem.vertices++;
        part.problem.arcs.push_back({number[items + arc.from], number[items + arc.to], renumber(arc.items)});
    }
    for (const Items& set : problem.sets)
        if (!set.empty()) part_at(set.front()).problem.sets.push_back(renumber(set));
    return parts;
}

}  // namespace

ReducedCut reduce_cut(CutProblem problem) {
    Reducer reducer{problem};
    reducer.run();
    ReducedCut reduced;
    reduced.parts = split_parts(problem);
    reduced.chosen = std::move(reducer.chosen);
    std::sort(reduced.chosen.begin(), reduced.chosen.end());
    return reduced;
}

}  // namespace ligament
