// By which ways does a cycle close? Its elementary circuits, shortest first, and how many there are.
#include <algorithm>
#include <utility>

#include "circuit_graph.hpp"
#include "cut_problem.hpp"
#include "folding.hpp"

namespace ligament {

namespace {

/// About a second's work each.
constexpr std::uint64_t listing_budget = 200'000'000;
constexpr std::uint64_t counting_budget = 200'000'000;

/// What is listed is kept, edge by edge: some million of them at most.
constexpr std::uint64_t steps_a_stored_arc = 50;

struct Frame {
    std::uint32_t vertex = 0;
    std::uint32_t next = 0;  ///< index of the arc to go on with
    std::uint32_t used = 0;  ///< price up to the vertex
    bool found = false;
};

/// Depth first from each root, to a length that grows from one pass to the next (iterative deepening: Korf, Artificial
/// Intelligence 27, 1985), pruned by how far it is back to the root. A pass lists the circuits of exactly its length; the next
/// one's length is the least at which something was pruned.
class Lister {
  public:
    Lister(const CircuitGraph& graph, std::size_t wanted, Budget& budget)
        : graph_(graph), wanted_(wanted), budget_(budget), back_(graph.size(), none), is_on_path_(graph.size(), 0) {}

    /// Each as indices of arcs.
    std::vector<std::vector<std::uint32_t>> run() {
        while (length_ != none && found_.size() < wanted_ && !budget_.is_spent()) {
            next_length_ = none;
            for (std::uint32_t turn = 0; turn < graph_.roots.size() && !is_over(); ++turn) {
                measure(turn);
                search(turn);
                for (std::uint32_t v : measured_) back_[v] = none;
                budget_.spend(10);
            }
            length_ = next_length_;
        }
        return std::move(found_);
    }

  private:
    bool is_over() const { return found_.size() >= wanted_ || budget_.is_spent(); }

    /// How far it is to the root, over arcs of price 0 at once, over others in the next round: all that are as near as the length
    /// of the pass, and some work further, so that the next pass can be a good deal longer where nothing branches.
    void measure(std::uint32_t turn) {
        const std::uint32_t root = graph_.roots[turn];
        measured_.assign(1, root);
        level_.assign(1, root);
        back_[root] = 0;
        const std::uint64_t enough = 256 + 4 * std::uint64_t{length_};
        std::uint64_t work = 0;
        for (reach_ = 0; !level_.empty() && (reach_ < length_ || work < enough) && !budget_.is_spent(); ++reach_) {
            next_level_.clear();
            for (std::size_t i = 0; i < level_.size(); ++i) {
                if (back_[level_[i]] != reach_) continue;
                work += graph_.to(level_[i]).size();
                for (std::uint32_t a : graph_.to(level_[i])) note(graph_.out[a], root, turn, reach_);
            }
            level_.swap(next_level_);
        }
        if (level_.empty()) reach_ = none;
        budget_.spend(work);
    }
    void note(const CircuitArc& arc, std::uint32_t root, std::uint32_t turn, std::uint32_t distance) {
        const std::uint32_t price = graph_.price(arc, root);
        if (!graph_.is_alive(arc.from, turn) || distance + price >= back_[arc.from]) return;
        if (back_[arc.from] == none) measured_.push_back(arc.from);
        back_[arc.from] = distance + price;
        (price == 0 ? level_ : next_level_).push_back(arc.from);
    }

    void prune(std::uint64_t length) { next_length_ = static_cast<std::uint32_t>(std::min<std::uint64_t>(next_length_, length)); }

    void search(std::uint32_t turn) {
        const std::uint32_t root = graph_.roots[turn];
        path_.assign(1, {root, graph_.first_out[root], 0});
        while (!path_.empty() && !is_over()) {
            Frame& frame = path_.back();
            budget_.spend(1);
            if (frame.next == graph_.first_out[frame.vertex + 1]) {
                is_on_path_[frame.vertex] = 0;
                path_.pop_back();
                continue;
            }
            const CircuitArc& arc = graph_.out[frame.next++];
            const std::uint32_t used = frame.used + graph_.price(arc, root);
            if (arc.to == root) {
                close(used);
            } else if (graph_.is_alive(arc.to, turn) && !is_on_path_[arc.to]) {
                const std::uint64_t back = back_[arc.to] == none ? std::uint64_t{reach_} + 1 : back_[arc.to];
                if (back_[arc.to] == none && reach_ == none) continue;
                if (used + back > length_) {
                    prune(used + back);
                } else {
                    is_on_path_[arc.to] = 1;
                    path_.push_back({arc.to, graph_.first_out[arc.to], used});
                }
            }
        }
        for (const Frame& frame : path_) is_on_path_[frame.vertex] = 0;
    }
    void close(std::uint32_t length) {
        if (length > length_) prune(length);
        if (length != length_) return;
        std::vector<std::uint32_t>& arcs = found_.emplace_back();
        for (const Frame& frame : path_) arcs.push_back(frame.next - 1);
        budget_.spend(steps_a_stored_arc * path_.size());
    }

    const CircuitGraph& graph_;
    std::size_t wanted_;
    Budget& budget_;
    std::uint32_t length_ = 1, next_length_ = none;
    std::uint32_t reach_ = 0;          ///< how far back_ is known; none where that is everywhere
    std::vector<std::uint32_t> back_;  ///< by vertex: price of the way to the root; none beyond reach_, or where there is none
    std::vector<std::uint32_t> measured_, level_, next_level_;
    std::vector<std::uint8_t> is_on_path_;
    std::vector<Frame> path_;
    std::vector<std::vector<std::uint32_t>> found_;
};

/// Johnson's method (SIAM J. Computing 4, 1975) with a stack of its own: each circuit at the cost of at most the graph's size.
class Counter {
  public:
    Counter(const CircuitGraph& graph, Budget& budget)
        : graph_(graph),
          budget_(budget),
          leads_back_(graph.size(), none),
          is_blocked_(graph.size(), 0),
          blocked_by_(graph.size()) {}

    /// True when all were counted.
    bool run() {
        for (std::uint32_t turn = 0; turn < graph_.roots.size(); ++turn) {
            mark_leading_back(turn);
            count(turn);
            if (budget_.is_spent()) return false;
        }
        return true;
    }
    std::uint64_t counted() const { return counted_; }

  private:
    void mark_leading_back(std::uint32_t turn) {
        going_.assign(1, graph_.roots[turn]);
        leads_back_[graph_.roots[turn]] = turn;
        while (!going_.empty()) {
            const std::uint32_t v = going_.back();
            going_.pop_back();
            is_blocked_[v] = 0;
            blocked_by_[v].clear();
            budget_.spend(graph_.to(v).size() + 1);
            for (std::uint32_t a : graph_.to(v)) {
                const std::uint32_t from = graph_.out[a].from;
                if (!graph_.is_alive(from, turn) || leads_back_[from] == turn) continue;
                leads_back_[from] = turn;
                going_.push_back(from);
            }
        }
    }

    void count(std::uint32_t turn) {
        const std::uint32_t root = graph_.roots[turn];
        path_.assign(1, {root, graph_.first_out[root], 0});
        is_blocked_[root] = 1;
        while (!path_.empty() && !budget_.is_spent()) {
            Frame& frame = path_.back();
            budget_.spend(2);
            if (frame.next == graph_.first_out[frame.vertex + 1]) {
                leave(turn);
                continue;
            }
            const std::uint32_t to = graph_.out[frame.next++].to;
            if (to == root) {
                ++counted_;
                frame.found = true;
            } else if (leads_back_[to] == turn && !is_blocked_[to]) {
                is_blocked_[to] = 1;
                path_.push_back({to, graph_.first_out[to], 0});
            }
        }
    }
    void leave(std::uint32_t turn) {
        const Frame left = path_.back();
        path_.pop_back();
        if (left.found) {
            unblock(left.vertex);
            if (!path_.empty()) path_.back().found = true;
            return;
        }
        for (const CircuitArc& arc : graph_.from(left.vertex)) {
            if (leads_back_[arc.to] != turn) continue;
            std::vector<std::uint32_t>& waiting = blocked_by_[arc.to];
            budget_.spend(waiting.size() + 1);
            if (std::find(waiting.begin(), waiting.end(), left.vertex) == waiting.end()) waiting.push_back(left.vertex);
        }
    }
    void unblock(std::uint32_t start) {
        going_.assign(1, start);
        while (!going_.empty()) {
            const std::uint32_t v = going_.back();
            going_.pop_back();
            if (!is_blocked_[v]) continue;
            is_blocked_[v] = 0;
            budget_.spend(blocked_by_[v].size() + 1);
            going_.insert(going_.end(), blocked_by_[v].begin(), blocked_by_[v].end());
            blocked_by_[v].clear();
        }
    }

    const CircuitGraph& graph_;
    Budget& budget_;
    std::vector<std::uint32_t> leads_back_;  ///< by vertex: the last turn whose root it leads to
    std::vector<std::uint8_t> is_blocked_;
    std::vector<std::vector<std::uint32_t>> blocked_by_;  ///< by vertex: who is to be unblocked with it
    std::vector<Frame> path_;
    std::vector<std::uint32_t> going_;
    std::uint64_t counted_ = 0;
};

Circuit tell_circuit(const Dependencies& dependencies, const CyclePart& part, const CircuitGraph& graph,
                     const std::vector<std::uint32_t>& arcs) {
    std::vector<PathEdge> walk;
    for (std::uint32_t a : arcs) {
        const CircuitArc& arc = graph.out[a];
        walk.push_back({part.vertices[arc.from], part.vertices[arc.to], arc.edge});
    }
    const bool has_bones = graph.out[arcs.front()].from < graph.bones;
    return {fold_closed_walk(dependencies, *part.graph, std::move(walk)), !has_bones};
}

Circuits find_in(const Dependencies& dependencies, const CyclePart& part, std::size_t wanted, Budget& listing, Budget& counting) {
    const CircuitGraph graph = build_circuit_graph(part);
    Circuits circuits;
    for (const std::vector<std::uint32_t>& arcs : Lister(graph, wanted, listing).run())
        circuits.shortest.push_back(tell_circuit(dependencies, part, graph, arcs));
    Counter counter(graph, counting);
    circuits.is_all_counted = counter.run();
    circuits.at_least = std::max<std::uint64_t>(counter.counted(), circuits.shortest.size());
    return circuits;
}

}  // namespace

std::vector<Circuits> find_circuits(const Rig& rig, const Dependencies& dependencies, std::span<const Cycle> cycles,
                                    std::size_t wanted) {
    wanted = std::min(wanted, most_circuits_listed);
    std::vector<Circuits> circuits;
    PartCutter parts(rig, dependencies);
    std::uint64_t listing_left = listing_budget, counting_left = counting_budget;
    for (std::size_t i = 0; i < cycles.size(); ++i) {
        Budget listing{listing_left / (cycles.size() - i)}, counting{counting_left / (cycles.size() - i)};
        listing_left -= listing.left;
        counting_left -= counting.left;
        circuits.push_back(find_in(dependencies, parts.cut_out(cycles[i], Grain::bone), wanted, listing, counting));
        listing_left += listing.left;
        counting_left += counting.left;
    }
    return circuits;
}

}  // namespace ligament
