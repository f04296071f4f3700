#include "cut_start.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "ligament/rig.hpp"

namespace ligament {

namespace {

/// Arcs that the first, quick search for a short cycle through a vertex looks at.
constexpr std::uint64_t quick_search = 256;

struct Payer {
    const CutProblem& problem;
    const CutIndex& index;
    Budget& budget;
    CutStart start{};
    std::vector<std::uint64_t> left{};                      ///< by item: weight that is not paid yet
    std::vector<std::uint8_t> is_gone{};                    ///< by arc: an item of it is chosen
    std::vector<std::uint8_t> is_done{};                    ///< by vertex: in no cycle any more
    std::vector<std::uint32_t> came_by{}, seen{}, queue{};  ///< of one search
    std::uint32_t search = 0;

    void pay(const Items& items) {
        if (items.empty()) {
            start.is_answer = false;
            return;
        }
        std::uint64_t least = left[items.front()];
        for (std::uint32_t item : items) least = std::min(least, left[item]);
        start.at_least += least;
        for (std::uint32_t item : items)
            if ((left[item] -= least) == 0) choose(item);
        if (start.cycles.size() < cycles_kept) start.cycles.push_back(items);
    }
    void choose(std::uint32_t item) {
        if (start.is_chosen[item]) return;
        start.is_chosen[item] = 1;
        for (std::uint32_t arc : index.arcs_with.of(item)) is_gone[arc] = 1;
    }

    enum class Found : std::uint8_t { cycle, nothing, gave_up };

    /// A cycle of the fewest arcs through v, in breadth first order.
    Found find_cycle(std::uint32_t v, std::uint64_t limit, Items& items) {
        ++search;
        queue.assign(1, v);
        seen[v] = search;
        std::uint64_t work = 0;
        for (std::size_t i = 0; i < queue.size(); ++i)
            for (std::uint32_t arc : index.arcs_from.of(queue[i])) {
                if (++work > limit) return Found::gave_up;
                const std::uint32_t to = problem.arcs[arc].to;
                if (is_gone[arc] || is_done[to]) continue;
                if (to == v) {
                    items = problem.arcs[arc].items;
                    for (std::uint32_t u = queue[i]; u != v; u = problem.arcs[came_by[u]].from)
                        items = united(items, problem.arcs[came_by[u]].items);
                    budget.spend(30 * work);
                    return Found::cycle;
                }
                if (seen[to] == search) continue;
                seen[to] = search;
                came_by[to] = arc;
                queue.push_back(to);
            }
        budget.spend(30 * work);
        return Found::nothing;
    }

    /// Pays for cycles through each vertex. True when none is left.
    bool pay_cycles(std::uint64_t limit) {
        bool all = true;
        Items items;
        for (std::uint32_t v = 0; v < problem.vertices; ++v) {
            if (is_done[v]) continue;
            Found found = Found::cycle;
            while (found == Found::cycle && start.is_answer) {
                if (budget.is_spent()) return false;
                found = find_cycle(v, limit, items);
                if (found == Found::cycle) pay(items);
            }
            if (found == Found::gave_up) budget.spend(30 * limit);
            if (found == Found::nothing) is_done[v] = 1;
            all = all && is_done[v];
        }
        return all;
    }

    void run() {
        left = problem.weights;
        start.is_chosen.assign(problem.weights.size(), 0);
        is_gone.assign(problem.arcs.size(), 0);
        is_done.assign(problem.vertices, 0);
        came_by.assign(problem.vertices, 0);
        seen.assign(problem.vertices, 0);
        for (const Items& set : problem.sets)
            if (!shares_item(set, start.is_chosen)) pay(set);
        if (pay_cycles(quick_search)) return;
        if (!pay_cycles(~std::uint64_t{0}) && start.is_answer) cut_backward_arcs();
    }

    void cut_backward_arcs();
};

/// The order of Eades, Lin and Smyth over arcs that are not gone: sinks to the end, sources to the front, else the vertex with
/// most arcs out over arcs in to the front. Linear.
class Ordering {
  public:
    Ordering(const CutProblem& problem, const CutIndex& index, const std::vector<std::uint8_t>& is_gone)
        : problem_(problem), index_(index), is_gone_(is_gone), in_(problem.vertices, 0), out_(problem.vertices, 0) {
        for (std::size_t a = 0; a < problem.arcs.size(); ++a)
            if (!is_gone[a]) ++out_[problem.arcs[a].from], ++in_[problem.arcs[a].to];
        for (std::uint32_t v = 0; v < problem.vertices; ++v) widest_ = std::max({widest_, in_[v], out_[v]});
        buckets_.resize(2 * widest_ + 3);
        place_.assign(problem.vertices, none);
        for (std::uint32_t v = problem.vertices; v-- > 0;) put(v);
    }

    /// By vertex its place, from 0.
    std::vector<std::uint32_t> find() {
        std::uint32_t front = 0, back = problem_.vertices;
        std::size_t top = buckets_.size() - 1;
        while (front < back) {
            std::uint32_t v = take(0);
            if (v != none) {
                place_[v] = --back;
            } else {
                top = buckets_.size() - 1;
                while ((v = take(top)) == none) --top;
                place_[v] = front++;
            }
            loosen(v);
        }
        return std::move(place_);
    }

  private:
    std::size_t bucket_of(std::uint32_t v) const {
        if (out_[v] == 0) return 0;
        if (in_[v] == 0) return buckets_.size() - 1;
        return 1 + widest_ + out_[v] - in_[v];
    }
    void put(std::uint32_t v) { buckets_[bucket_of(v)].push_back(v); }
    /// Entries of vertices that have moved on to another bucket are passed over.
    std::uint32_t take(std::size_t bucket) {
        std::vector<std::uint32_t>& entries = buckets_[bucket];
        while (!entries.empty()) {
            const std::uint32_t v = entries.back();
            entries.pop_back();
            if (place_[v] == none && bucket_of(v) == bucket) return v;
        }
        return none;
    }
    void loosen(std::uint32_t v) {
        for (std::uint32_t arc : index_.arcs_from.of(v)) {
            const std::uint32_t to = problem_.arcs[arc].to;
            if (is_gone_[arc] || place_[to] != none) continue;
            --in_[to];
            put(to);
        }
        for (std::uint32_t arc : index_.arcs_to.of(v)) {
            const std::uint32_t from = problem_.arcs[arc].from;
            if (is_gone_[arc] || place_[from] != none) continue;
            --out_[from];
            put(from);
        }
    }

    const CutProblem& problem_;
    const CutIndex& index_;
    const std::vector<std::uint8_t>& is_gone_;
    std::vector<std::uint32_t> in_, out_, place_;
    std::uint32_t widest_ = 0;
    std::vector<std::vector<std::uint32_t>> buckets_;
};

void Payer::cut_backward_arcs() {
    const std::vector<std::uint32_t> place = Ordering(problem, index, is_gone).find();
    for (std::size_t a = 0; a < problem.arcs.size(); ++a) {
        const CutArc& arc = problem.arcs[a];
        if (is_gone[a] || place[arc.from] < place[arc.to]) continue;
        if (arc.items.empty()) {
            start.is_answer = false;
            return;
        }
        choose(*std::min_element(arc.items.begin(), arc.items.end(), [&](std::uint32_t x, std::uint32_t y) {
            return std::pair(problem.weights[x], x) < std::pair(problem.weights[y], y);
        }));
    }
}

/// Puts items of an answer back as long as no cycle closes.
struct Dropper {
    const CutProblem& problem;
    const CutIndex& index;
    std::vector<std::uint32_t> arc_hits{}, set_hits{};  ///< how many items of it are chosen
    std::vector<std::uint32_t> seen{}, going{};
    std::uint32_t search = 0;
    std::uint64_t work = 0;

    explicit Dropper(const CutProblem& of, const CutIndex& with, const std::vector<std::uint8_t>& is_chosen)
        : problem(of), index(with), arc_hits(of.arcs.size(), 0), set_hits(of.sets.size(), 0), seen(of.vertices, 0) {
        for (std::uint32_t item = 0; item < is_chosen.size(); ++item)
            if (is_chosen[item]) add(item, 1);
    }
    void add(std::uint32_t item, int by) {
        for (std::uint32_t arc : index.arcs_with.of(item)) arc_hits[arc] += static_cast<std::uint32_t>(by);
        for (std::uint32_t set : index.sets_with.of(item)) set_hits[set] += static_cast<std::uint32_t>(by);
    }
    bool leads(std::uint32_t from, std::uint32_t to) {
        ++search;
        going.assign(1, from);
        seen[from] = search;
        while (!going.empty()) {
            const std::uint32_t v = going.back();
            going.pop_back();
            if (v == to) return true;
            for (std::uint32_t arc : index.arcs_from.of(v)) {
                ++work;
                const std::uint32_t next = problem.arcs[arc].to;
                if (arc_hits[arc] != 0 || seen[next] == search) continue;
                seen[next] = search;
                going.push_back(next);
            }
        }
        return false;
    }
    bool drop(std::uint32_t item) {
        for (std::uint32_t set : index.sets_with.of(item))
            if (set_hits[set] == 1) return false;
        add(item, -1);
        for (std::uint32_t arc : index.arcs_with.of(item))
            if (arc_hits[arc] == 0 && leads(problem.arcs[arc].to, problem.arcs[arc].from)) {
                add(item, 1);
                return false;
            }
        return true;
    }
};

}  // namespace

void drop_needless(const CutProblem& problem, const CutIndex& index, std::span<const std::uint32_t> in_order,
                   std::vector<std::uint8_t>& is_chosen, Budget& budget) {
    Dropper dropper(problem, index, is_chosen);
    std::uint64_t paid = 0;
    for (std::uint32_t item : in_order) {
        if (budget.is_spent()) return;
        if (is_chosen[item] && dropper.drop(item)) is_chosen[item] = 0;
        budget.spend(30 * (dropper.work - paid));
        paid = dropper.work;
    }
}

std::uint64_t weight_of(const CutProblem& problem, const std::vector<std::uint8_t>& is_chosen) {
    std::uint64_t weight = 0;
    for (std::size_t item = 0; item < is_chosen.size(); ++item)
        if (is_chosen[item]) weight += problem.weights[item];
    return weight;
}

CutStart find_cut_start(const CutProblem& problem, const CutIndex& index, Budget& budget) {
    Budget for_paying{budget.left / 2};
    const std::uint64_t had = for_paying.left;
    Payer payer{problem, index, for_paying};
    payer.run();
    budget.spend(had - for_paying.left);
    CutStart start = std::move(payer.start);
    std::vector<std::uint32_t> dearest_first;
    for (std::uint32_t item = 0; item < problem.weights.size(); ++item)
        if (start.is_chosen[item]) dearest_first.push_back(item);
    std::sort(dearest_first.begin(), dearest_first.end(), [&](std::uint32_t a, std::uint32_t b) {
        return std::pair(problem.weights[a], a) > std::pair(problem.weights[b], b);
    });
    Budget for_dropping{budget.left / 2};
    const std::uint64_t had_left = for_dropping.left;
    drop_needless(problem, index, dearest_first, start.is_chosen, for_dropping);
    budget.spend(had_left - for_dropping.left);
    start.weight = weight_of(problem, start.is_chosen);
    return start;
}

}  // namespace ligament
