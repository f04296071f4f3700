#include "cut_search.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <numeric>
#include <queue>
#include <utility>

#include "cut_reduction.hpp"
#include "cut_start.hpp"
#include "ligament/rig.hpp"
#include "packing.hpp"

namespace ligament {

namespace {

/// A linear program has a dense square matrix over the items.
constexpr std::size_t most_items = 1'000;
/// Doubles that the saved bases of one search hold at most; past it a branch starts from the empty packing.
constexpr std::size_t most_saved = 8'000'000;

std::uint64_t rounded_up(std::uint64_t in_units) { return (in_units + Packing::unit - 1) / Packing::unit; }

enum class Standing : std::uint8_t { open, taken, forbidden };

/// Searches one part: shares no items with others.
class CutSearch {
  public:
    CutSearch(const CutProblem& problem, const CutIndex& index, Budget& budget)
        : problem_(problem),
          index_(index),
          budget_(budget),
          packing_(problem.weights, budget),
          standing_(problem.weights.size(), Standing::open) {}

    void add_cycles(const std::vector<Items>& cycles) {
        for (const Items& cycle : cycles) packing_.add(cycle);
    }

    /// Looks for answers lighter than `limit`, with those already settled by settle(). True when it went through all, or, where
    /// `any` will do, found one. Then best() holds the lightest, if there was one.
    bool run(std::uint64_t limit, bool any);

    const std::vector<std::uint8_t>& best() const { return best_; }
    bool has_best() const { return !best_.empty(); }
    std::uint64_t best_weight() const { return limit_; }
    /// Of what the last run has not gone through nothing weighs less.
    std::uint64_t proven() const { return proven_; }
    /// What later runs take for given.
    void settle(std::uint32_t item, Standing standing) { set(item, standing); }
    void unsettle() { undo(trail_.size() - 1); }
    bool is_settled_answer() const;
    /// Bounds of everything with what is settled now, for is_too_dear().
    void find_bounds();
    /// Whether the last find_bounds() shows that no answer up to `weight` holds the item.
    bool is_too_dear(std::uint32_t item, std::uint64_t weight) const {
        return !root_slack_.empty() && root_weight_ + rounded_up(root_bound_ + root_slack_[item]) > weight;
    }

  private:
    struct Frame {
        std::uint32_t item = 0;
        bool is_second = false;
        bool is_saved = false;
        std::size_t trail = 0;
        std::uint64_t bound = 0;  ///< of everything below
        Packing::Basis basis;
    };

    enum class Fate : std::uint8_t { pruned, branch, stopped };
    Fate look(std::uint32_t& branch_item, std::uint64_t& bound);
    void set(std::uint32_t item, Standing standing);
    void undo(std::size_t trail);
    bool generate_cycles();
    bool find_light_cycle(std::uint32_t v, Items& items);
    void round_prices();
    void forbid_dear_items(std::uint64_t bound, const std::vector<std::uint64_t>& slack);
    std::uint32_t pick_branch() const;
    bool step_back();
    void restart();

    const CutProblem& problem_;
    const CutIndex& index_;
    Budget& budget_;
    Packing packing_;
    std::vector<Standing> standing_;
    std::vector<std::uint32_t> trail_;
    std::vector<Frame> frames_;
    std::vector<std::uint8_t> best_;
    std::uint64_t limit_ = 0, proven_ = 0, taken_weight_ = 0;
    std::size_t saved_ = 0;
    Packing::Basis root_;  ///< where the first look of a run has led
    // of find_bounds()
    std::uint64_t root_weight_ = 0, root_bound_ = 0;
    std::vector<std::uint64_t> root_slack_;

    // of one search for a cycle
    std::vector<double> length_;
    std::vector<std::uint32_t> came_by_;
    std::vector<double> arc_length_;
};

void CutSearch::set(std::uint32_t item, Standing standing) {
    standing_[item] = standing;
    trail_.push_back(item);
    if (standing == Standing::forbidden) {
        packing_.forbid(item);
    } else {
        packing_.take(item);
        taken_weight_ += problem_.weights[item];
    }
}

void CutSearch::undo(std::size_t trail) {
    for (; trail_.size() > trail; trail_.pop_back()) {
        const std::uint32_t item = trail_.back();
        if (standing_[item] == Standing::taken) {
            packing_.untake(item);
            taken_weight_ -= problem_.weights[item];
        }
        standing_[item] = Standing::open;
    }
}

void CutSearch::restart() {
    std::vector<std::uint8_t> is_forbidden(standing_.size());
    for (std::size_t i = 0; i < standing_.size(); ++i) is_forbidden[i] = standing_[i] == Standing::forbidden;
    packing_.restart(is_forbidden);
}

bool CutSearch::is_settled_answer() const {
    std::vector<std::uint8_t> is_chosen(standing_.size());
    for (std::size_t i = 0; i < standing_.size(); ++i) is_chosen[i] = standing_[i] == Standing::taken;
    return is_answer(problem_, is_chosen);
}

/// A cycle through v whose items' prices come to less than 1: Dijkstra's method over arcs that are not taken.
bool CutSearch::find_light_cycle(std::uint32_t v, Items& items) {
    constexpr double light = 1.0 - 1e-6;
    length_.assign(problem_.vertices, std::numeric_limits<double>::infinity());
    std::priority_queue<std::pair<double, std::uint32_t>, std::vector<std::pair<double, std::uint32_t>>, std::greater<>> queue;
    queue.emplace(0.0, v);
    double closing = light;
    std::uint32_t last = none;
    std::uint64_t work = 0;
    while (!queue.empty()) {
        const auto [length, at] = queue.top();
        queue.pop();
        if (length >= closing) break;
        if (length > length_[at]) continue;
        for (std::uint32_t arc : index_.arcs_from.of(at)) {
            ++work;
            const double on = length + arc_length_[arc];
            const std::uint32_t to = problem_.arcs[arc].to;
            if (on >= closing) continue;
            if (to == v) {
                closing = on;
                last = arc;
            } else if (on < length_[to]) {
                length_[to] = on;
                came_by_[to] = arc;
                queue.emplace(on, to);
            }
        }
    }
    budget_.spend(20 * work + problem_.vertices);
    if (last == none) return false;
    items = problem_.arcs[last].items;
    for (std::uint32_t u = problem_.arcs[last].from; u != v; u = problem_.arcs[came_by_[u]].from)
        items = united(items, problem_.arcs[came_by_[u]].items);
    return true;
}

/// Adds light cycles through all vertices. True when there was a new one.
bool CutSearch::generate_cycles() {
    came_by_.resize(problem_.vertices);
    arc_length_.resize(problem_.arcs.size());
    for (std::size_t a = 0; a < problem_.arcs.size(); ++a) {
        double length = 0.0;
        for (std::uint32_t item : problem_.arcs[a].items)
            length += standing_[item] == Standing::taken ? 2.0 : std::max(0.0, packing_.price(item));
        arc_length_[a] = length;
    }
    bool any = false;
    Items items;
    for (std::uint32_t v = 0; v < problem_.vertices && !budget_.is_spent(); ++v)
        if (find_light_cycle(v, items)) any = packing_.add(items) || any;
    return any;
}

/// Every item with a price hits every cycle together with the others; those that are not needed go, the lowest price first.
void CutSearch::round_prices() {
    std::vector<std::uint8_t> is_chosen(standing_.size(), 0);
    std::vector<std::uint32_t> cheapest_first;
    for (std::uint32_t item = 0; item < standing_.size(); ++item) {
        is_chosen[item] =
            standing_[item] == Standing::taken || (standing_[item] == Standing::open && packing_.price(item) > 1e-7);
        if (is_chosen[item]) cheapest_first.push_back(item);
    }
    budget_.spend(4 * (problem_.arcs.size() + problem_.vertices));
    if (!is_answer(problem_, is_chosen)) return;
    const auto rank = [&](std::uint32_t item) { return standing_[item] == Standing::taken ? 2.0 : packing_.price(item); };
    std::stable_sort(cheapest_first.begin(), cheapest_first.end(), [&](std::uint32_t a, std::uint32_t b) {
        return std::pair(rank(a), problem_.weights[b]) < std::pair(rank(b), problem_.weights[a]);
    });
    // Items that were asked for stay, or the answer would not be one that holds them.
    std::erase_if(cheapest_first, [&](std::uint32_t item) { return standing_[item] == Standing::taken; });
    drop_needless(problem_, index_, cheapest_first, is_chosen, budget_);
    const std::uint64_t weight = weight_of(problem_, is_chosen);
    if (weight >= limit_) return;
    limit_ = weight;
    best_ = std::move(is_chosen);
}

/// An item without a price that cannot be in a lighter answer is forbidden (reduced cost fixing).
void CutSearch::forbid_dear_items(std::uint64_t bound, const std::vector<std::uint64_t>& slack) {
    for (std::uint32_t item = 0; item < standing_.size(); ++item)
        if (standing_[item] == Standing::open && packing_.price(item) < 1e-9 &&
            taken_weight_ + rounded_up(bound + slack[item]) >= limit_)
            set(item, Standing::forbidden);
}

std::uint32_t CutSearch::pick_branch() const {
    std::uint32_t best = none;
    double best_distance = 2.0;
    for (std::uint32_t item = 0; item < standing_.size(); ++item) {
        if (standing_[item] != Standing::open || packing_.price(item) < 1e-7) continue;
        const double price = packing_.price(item), distance = price < 0.5 ? 0.5 - price : price - 0.5;
        if (distance < best_distance - 1e-9) {
            best_distance = distance;
            best = item;
        }
    }
    return best;
}

void CutSearch::find_bounds() {
    do {
        if (packing_.solve(std::numeric_limits<double>::infinity()) != Packing::Outcome::best) return;
    } while (generate_cycles());
    root_weight_ = taken_weight_;
    root_bound_ = packing_.bound(root_slack_);
}

CutSearch::Fate CutSearch::look(std::uint32_t& branch_item, std::uint64_t& bound) {
    std::vector<std::uint64_t> slack;
    bool stopped = false;
    for (;;) {
        const double enough = limit_ > taken_weight_ ? static_cast<double>(limit_ - taken_weight_) - 1.0 + 1e-3 : 0.0;
        const Packing::Outcome outcome = packing_.solve(enough);
        if (outcome == Packing::Outcome::no_cut) return Fate::pruned;
        const std::uint64_t in_units = packing_.bound(slack);
        bound = std::max(bound, taken_weight_ + rounded_up(in_units));
        if (bound >= limit_) return Fate::pruned;
        if (budget_.is_spent()) return Fate::stopped;
        stopped = outcome == Packing::Outcome::stopped;
        if (stopped || !generate_cycles()) {
            if (frames_.empty()) root_ = packing_.basis();
            round_prices();
            if (bound >= limit_) return Fate::pruned;
            forbid_dear_items(in_units, slack);
            branch_item = pick_branch();
            return branch_item == none ? Fate::pruned : Fate::branch;
        }
    }
}

/// To the next branch that is not looked at yet. False when there is none.
bool CutSearch::step_back() {
    while (!frames_.empty()) {
        Frame& frame = frames_.back();
        if (frame.is_second || frame.bound >= limit_) {
            if (frame.is_saved) saved_ -= frame.basis.inverse.size();
            undo(frame.trail);
            frames_.pop_back();
            continue;
        }
        undo(frame.trail);
        if (frame.is_saved) {
            packing_.restore(frame.basis);
            saved_ -= frame.basis.inverse.size();
            frame.basis = {};
            frame.is_saved = false;
        } else {
            restart();
        }
        frame.is_second = true;
        set(frame.item, Standing::forbidden);
        return true;
    }
    return false;
}

bool CutSearch::run(std::uint64_t limit, bool any) {
    limit_ = limit;
    best_.clear();
    proven_ = limit;
    root_ = {};
    const std::size_t settled = trail_.size();
    std::uint64_t inherited = taken_weight_;
    bool finished = true;
    for (;;) {
        std::uint32_t item = none;
        std::uint64_t bound = inherited;
        const Fate fate = look(item, bound);
        if (fate == Fate::stopped) {
            finished = false;
            proven_ = bound;
            for (const Frame& frame : frames_)
                if (!frame.is_second) proven_ = std::min(proven_, frame.bound);
            break;
        }
        if (any && has_best()) break;
        if (fate == Fate::branch) {
            frames_.push_back({item, false, false, trail_.size(), bound, {}});
            if (saved_ + packing_.basis().inverse.size() <= most_saved) {
                frames_.back().basis = packing_.basis();
                frames_.back().is_saved = true;
                saved_ += packing_.basis().inverse.size();
            }
            set(item, Standing::taken);
            inherited = bound;
        } else {
            if (!step_back()) break;
            inherited = frames_.back().bound;
        }
    }
    if (finished) proven_ = limit_;
    frames_.clear();
    saved_ = 0;
    undo(settled);
    if (root_.variables.empty())
        restart();
    else
        packing_.restore(root_);
    return finished;
}

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
