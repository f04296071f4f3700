#include "cut_branching.hpp"

#include <algorithm>
#include <bit>
#include <functional>
#include <limits>
#include <queue>
#include <utility>

#include "cut_start.hpp"

namespace ligament {

namespace {

/// Doubles that the saved bases of one search hold at most; past it a branch starts from the empty packing.
constexpr std::size_t most_saved = 8'000'000;

}  // namespace

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

/// The heuristic of the start once more, with items the lighter the higher their price is.
void CutSearch::follow_prices() {
    CutProblem guided = problem_;
    for (std::uint32_t item = 0; item < guided.weights.size(); ++item) {
        const double left = 1.0 - std::clamp(packing_.price(item), 0.0, 1.0);
        guided.weights[item] = 1 + static_cast<std::uint64_t>(1000.0 * left * static_cast<double>(problem_.weights[item]));
    }
    CutStart start = find_cut_start(guided, index_, budget_);
    if (!start.is_answer) return;
    const std::uint64_t weight = weight_of(problem_, start.is_chosen);
    if (weight >= limit_) return;
    limit_ = weight;
    best_ = std::move(start.is_chosen);
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
    for (std::uint32_t round = 1;; ++round) {
        if (trail_.empty() && std::has_single_bit(round)) follow_prices();
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

}  // namespace ligament
