#include "cut_search.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "cut_branching.hpp"
#include "cut_reduction.hpp"
#include "cut_start.hpp"

namespace ligament {

namespace {

/// A linear program has a dense square matrix over the items.
constexpr std::size_t most_items = 1'000;

/// Of the answers that weigh as much as `best` the first. False where the budget ends before that is known.
bool find_first(CutSearch& search, std::vector<std::uint8_t>& best, std::uint64_t weight, Budget& budget) {
    search.find_bounds();
    for (std::uint32_t item = 0; item < best.size(); ++item) {
        if (search.is_settled_answer()) return true;
        if (!best[item] && !search.is_too_dear(item, weight)) {
            search.settle(item, Standing::taken);
            const bool known = search.run(weight + 1, /*any=*/true);
            if (search.has_best()) best = search.best();
            search.unsettle();
            if (!known && !search.has_best()) return false;
            search.settle(item, best[item] ? Standing::taken : Standing::forbidden);
            search.find_bounds();
        } else {
            search.settle(item, best[item] ? Standing::taken : Standing::forbidden);
        }
        if (budget.is_spent()) return false;
    }
    return true;
}

/// Takes a factor that all weights share out of them.
std::uint64_t divide_weights(CutProblem& problem) {
    std::uint64_t divisor = 0;
    for (std::uint64_t weight : problem.weights) divisor = std::gcd(divisor, weight);
    if (divisor > 1)
        for (std::uint64_t& weight : problem.weights) weight /= divisor;
    return divisor;
}

struct PartAnswer {
    std::vector<std::uint8_t> is_chosen;
    bool is_exact = false, is_first = false;
    std::uint64_t at_least = 0;
};

PartAnswer answer_part(const CutProblem& problem, Budget& budget) {
    const CutIndex index = index_of(problem);
    CutStart start = find_cut_start(problem, index, budget);
    PartAnswer answer{std::move(start.is_chosen), start.is_answer && start.at_least == start.weight, false, start.at_least};
    if (!start.is_answer || problem.weights.size() > most_items) return answer;
    CutSearch search(problem, index, budget);
    search.add_cycles(start.cycles);
    for (const Items& set : problem.sets) search.add_cycles({set});
    answer.is_exact = search.run(start.weight, /*any=*/false);
    if (search.has_best()) answer.is_chosen = search.best();
    const std::uint64_t weight = weight_of(problem, answer.is_chosen);
    answer.at_least = answer.is_exact ? weight : std::max(answer.at_least, search.proven());
    answer.is_first = answer.is_exact && find_first(search, answer.is_chosen, weight, budget);
    return answer;
}

}  // namespace

CutAnswer find_cheapest_cut(const CutProblem& problem, Budget& budget) {
    ReducedCut reduced = reduce_cut(problem);
    CutAnswer answer;
    answer.items = std::move(reduced.chosen);
    for (std::uint32_t item : answer.items) answer.at_least += problem.weights[item];
    for (std::size_t i = 0; i < reduced.parts.size(); ++i) {
        CutPart& part = reduced.parts[i];
        const std::uint64_t unit = divide_weights(part.problem);
        Budget share{budget.left / (reduced.parts.size() - i)};
        const std::uint64_t had = share.left;
        const PartAnswer found = answer_part(part.problem, share);
        budget.spend(had - share.left);
        for (std::uint32_t item = 0; item < part.items.size(); ++item)
            if (found.is_chosen[item]) answer.items.push_back(part.items[item]);
        answer.at_least += unit * found.at_least;
        answer.is_exact = answer.is_exact && found.is_exact;
        answer.is_first = answer.is_first && found.is_first;
    }
    std::sort(answer.items.begin(), answer.items.end());
    for (std::uint32_t item : answer.items) answer.weight += problem.weights[item];
    return answer;
}

}  // namespace ligament
