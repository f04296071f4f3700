// How much must any cut weigh at least? A linear program that packs cycles into the weights of their items.
#pragma once

#include <set>

#include "cut_problem.hpp"

namespace ligament {

/// Pay for each cycle so that no item is asked for more than its weight; the sum that is paid is a lower bound of every cut, and
/// the prices of the items that come out beside it are a cut in fractions. Revised simplex on an explicit inverse, whose columns
/// (cycles) are generated as they are needed (Gilmore and Gomory, Operations Research 9, 1961). Items may be taken (their cycles
/// need not be paid any more) or forbidden (they pay without limit), one after the other: each solve goes on from where the last
/// one ended. Floating point steers the search only: bound() is proven in whole numbers.
class Packing {
  public:
    Packing(const std::vector<std::uint64_t>& weights, Budget& budget);

    /// Adds a cycle, or finds that it is there already; false then.
    bool add(const Items& cycle);

    void take(std::uint32_t item);
    void untake(std::uint32_t item);
    void forbid(std::uint32_t item) { basis_.is_free[item] = 1; }

    /// no_cut: a cycle can be paid without limit, since all of its items are forbidden.
    enum class Outcome : std::uint8_t { best, no_cut, stopped };
    /// Over the cycles added so far. Stops early when the budget ends or rounds get many, or as soon as the sum is above
    /// `enough`.
    Outcome solve(double enough);

    double sum() const;
    /// The price of an item, 0 to 1 and a little beyond.
    double price(std::uint32_t item) const { return prices_[item]; }

    /// A proven lower bound, in 1/unit, of what the items that are neither taken nor forbidden must cost; and by item how much
    /// of its weight is not paid, so that a cut with it costs bound + slack at least.
    static constexpr std::uint64_t unit = std::uint64_t{1} << 24;
    std::uint64_t bound(std::vector<std::uint64_t>& slack) const;

    /// What a search returns to: where the simplex stands and what is forbidden. Cycles added since stay known.
    struct Basis {
        std::vector<std::uint32_t> variables;
        std::vector<double> inverse, values;
        std::vector<std::uint8_t> is_free;
    };
    const Basis& basis() const { return basis_; }
    void restore(const Basis& basis);
    /// To the empty packing with these items forbidden.
    void restart(const std::vector<std::uint8_t>& is_forbidden);

  private:
    static constexpr std::uint32_t slack_flag = 0x8000'0000U;
    std::size_t rows() const { return weights_.size(); }
    double worth(std::uint32_t variable) const;
    void clear();
    void find_prices();
    struct Entering {
        std::uint32_t variable;
        double gain;
        double sign = 1.0;  ///< -1: downwards, as the slack of a forbidden item may
    };
    Entering pick_entering() const;
    void find_column(const Entering& entering);
    std::size_t pick_leaving(double& step) const;
    bool pivot(const Entering& entering);

    std::vector<std::uint64_t> weights_;
    std::vector<double> limits_;  ///< the weights, a little less each, so that no two ways to pivot are alike
    std::vector<Items> cycles_;
    std::set<Items> known_;
    std::vector<std::uint32_t> taken_;                     ///< by cycle: how many of its items are taken
    std::vector<std::uint8_t> is_basic_;                   ///< by cycle
    std::vector<std::vector<std::uint32_t>> cycles_with_;  ///< by item
    std::vector<std::uint8_t> is_taken_;
    Basis basis_;
    std::vector<double> prices_, column_;
    std::size_t places_ = 0;  ///< items of all cycles
    Budget& budget_;
};

}  // namespace ligament
