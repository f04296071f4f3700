// Which answer of a part is the lightest? Branching over its items, bounded by linear programs.
#pragma once

#include "cut_problem.hpp"
#include "ligament/rig.hpp"
#include "packing.hpp"

namespace ligament {

inline std::uint64_t rounded_up(std::uint64_t in_units) { return (in_units + Packing::unit - 1) / Packing::unit; }

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
    void follow_prices();
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

}  // namespace ligament
