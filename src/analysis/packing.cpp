#include "packing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "ligament/rig.hpp"

namespace ligament {

namespace {

constexpr double tiny = 1e-9;
/// A cycle whose items' prices come this close to 1 counts as paid for.
constexpr double close_enough = 1e-7;

}  // namespace

Packing::Packing(const std::vector<std::uint64_t>& weights, Budget& budget)
    : weights_(weights), cycles_with_(weights.size()), is_taken_(weights.size(), 0), budget_(budget) {
    std::uint32_t noise = 12345;
    for (std::uint64_t weight : weights) {
        noise = noise * 1664525U + 1013904223U;
        limits_.push_back(static_cast<double>(weight) * (1.0 - 1e-7 * (0.5 + 0.5 * noise / 4294967296.0)));
    }
    prices_.resize(rows());
    column_.resize(rows());
    clear();
}

void Packing::clear() {
    basis_.variables.resize(rows());
    basis_.inverse.assign(rows() * rows(), 0.0);
    basis_.values = limits_;
    basis_.is_free.assign(rows(), 0);
    for (std::uint32_t row = 0; row < rows(); ++row) {
        basis_.variables[row] = row | slack_flag;
        basis_.inverse[row * rows() + row] = 1.0;
    }
    is_basic_.assign(cycles_.size(), 0);
    find_prices();
}

bool Packing::add(const Items& cycle) {
    if (!known_.insert(cycle).second) return false;
    const auto number = static_cast<std::uint32_t>(cycles_.size());
    std::uint32_t taken = 0;
    for (std::uint32_t item : cycle) {
        cycles_with_[item].push_back(number);
        taken += is_taken_[item];
    }
    places_ += cycle.size();
    cycles_.push_back(cycle);
    taken_.push_back(taken);
    is_basic_.push_back(0);
    return true;
}

void Packing::take(std::uint32_t item) {
    is_taken_[item] = 1;
    for (std::uint32_t cycle : cycles_with_[item]) ++taken_[cycle];
}

void Packing::untake(std::uint32_t item) {
    is_taken_[item] = 0;
    for (std::uint32_t cycle : cycles_with_[item]) --taken_[cycle];
}

/// Nothing is worth paying for a cycle that is cut already: at the best it is paid nothing.
double Packing::worth(std::uint32_t variable) const {
    if (variable & slack_flag) return 0.0;
    return taken_[variable] > 0 ? -1.0 : 1.0;
}

void Packing::find_prices() {
    std::fill(prices_.begin(), prices_.end(), 0.0);
    for (std::size_t row = 0; row < rows(); ++row) {
        const double by = worth(basis_.variables[row]);
        if (by == 0.0) continue;
        const double* inverse = basis_.inverse.data() + row * rows();
        for (std::size_t i = 0; i < rows(); ++i) prices_[i] += by * inverse[i];
    }
    budget_.spend(rows() * rows() / 2);
}

/// The entering variable told by the basis.
void Packing::find_column(const Entering& entering) {
    std::fill(column_.begin(), column_.end(), 0.0);
    const auto add_item = [&](std::uint32_t item) {
        for (std::size_t row = 0; row < rows(); ++row) column_[row] += entering.sign * basis_.inverse[row * rows() + item];
    };
    if (entering.variable & slack_flag)
        add_item(entering.variable & ~slack_flag);
    else
        for (std::uint32_t item : cycles_[entering.variable]) add_item(item);
}

/// The row whose variable is the first to come down to 0; the number of rows where none does.
std::size_t Packing::pick_leaving(double& step) const {
    std::size_t leaving = rows();
    step = std::numeric_limits<double>::infinity();
    for (std::size_t row = 0; row < rows(); ++row) {
        const std::uint32_t there = basis_.variables[row];
        if (column_[row] <= tiny || ((there & slack_flag) && basis_.is_free[there & ~slack_flag])) continue;
        const double ratio = std::max(0.0, basis_.values[row]) / column_[row];
        if (ratio < step - tiny || (ratio < step + tiny && leaving < rows() && column_[row] > column_[leaving])) {
            step = ratio;
            leaving = row;
        }
    }
    return leaving;
}

/// Lets a variable enter. False where nothing limits it.
bool Packing::pivot(const Entering& entering) {
    find_column(entering);
    double step = 0.0;
    const std::size_t leaving = pick_leaving(step);
    if (leaving == rows()) return false;
    double* pivot_row = basis_.inverse.data() + leaving * rows();
    std::size_t touched = 1;
    for (std::size_t row = 0; row < rows(); ++row) {
        if (row == leaving || column_[row] == 0.0) continue;
        ++touched;
        basis_.values[row] -= step * column_[row];
        const double by = column_[row] / column_[leaving];
        double* target = basis_.inverse.data() + row * rows();
        for (std::size_t i = 0; i < rows(); ++i) target[i] -= by * pivot_row[i];
    }
    const double divisor = column_[leaving] * entering.sign;
    for (std::size_t i = 0; i < rows(); ++i) pivot_row[i] /= divisor;
    basis_.values[leaving] = entering.sign * step;
    for (std::size_t i = 0; i < rows(); ++i) prices_[i] += entering.gain * entering.sign * pivot_row[i];
    const std::uint32_t left = basis_.variables[leaving];
    if (!(left & slack_flag)) is_basic_[left] = 0;
    if (!(entering.variable & slack_flag)) is_basic_[entering.variable] = 1;
    basis_.variables[leaving] = entering.variable;
    budget_.spend(touched * rows() / 2 + 8 * rows());
    return true;
}

/// What gains most by entering, or the variable `none`.
Packing::Entering Packing::pick_entering() const {
    Entering best{none, close_enough};
    for (std::uint32_t cycle = 0; cycle < cycles_.size(); ++cycle) {
        if (is_basic_[cycle] || taken_[cycle] > 0) continue;
        double cost = 0.0;
        for (std::uint32_t item : cycles_[cycle]) cost += prices_[item];
        if (1.0 - cost > best.gain) best = {cycle, 1.0 - cost};
    }
    for (std::uint32_t item = 0; item < rows(); ++item) {
        if (-prices_[item] > best.gain) best = {item | slack_flag, -prices_[item]};
        if (basis_.is_free[item] && prices_[item] > best.gain) best = {item | slack_flag, prices_[item], -1.0};
    }
    return best;
}

Packing::Outcome Packing::solve(double enough) {
    find_prices();
    const std::size_t most_rounds = 50 * rows() + 1000;
    for (std::size_t round = 0; round < most_rounds; ++round) {
        const Entering entering = pick_entering();
        if (!budget_.spend(places_ + 4 * cycles_.size())) return Outcome::stopped;
        if (entering.variable == none) return Outcome::best;
        if (!pivot(entering)) return Outcome::no_cut;
        if (sum() > enough) return Outcome::stopped;
    }
    return Outcome::stopped;
}

double Packing::sum() const {
    double sum = 0.0;
    for (std::size_t row = 0; row < rows(); ++row)
        if (!(basis_.variables[row] & slack_flag) && taken_[basis_.variables[row]] == 0) sum += basis_.values[row];
    return sum;
}

// What floating point has found is rounded down and then held against every limit in whole numbers.
std::uint64_t Packing::bound(std::vector<std::uint64_t>& slack) const {
    slack.resize(rows());
    for (std::size_t item = 0; item < rows(); ++item) slack[item] = weights_[item] * unit;
    std::uint64_t sum = 0;
    for (std::size_t row = 0; row < rows(); ++row) {
        const std::uint32_t cycle = basis_.variables[row];
        if ((cycle & slack_flag) || taken_[cycle] > 0 || !(basis_.values[row] > 0.0)) continue;
        auto paid = static_cast<std::uint64_t>(std::min(basis_.values[row], 1e10) * static_cast<double>(unit));
        for (std::uint32_t item : cycles_[cycle])
            if (!basis_.is_free[item]) paid = std::min(paid, slack[item]);
        for (std::uint32_t item : cycles_[cycle])
            if (!basis_.is_free[item]) slack[item] -= paid;
        sum += paid;
    }
    return sum;
}

void Packing::restore(const Basis& basis) {
    basis_ = basis;
    std::fill(is_basic_.begin(), is_basic_.end(), std::uint8_t{0});
    for (std::uint32_t variable : basis_.variables)
        if (!(variable & slack_flag)) is_basic_[variable] = 1;
    budget_.spend(rows() * rows() / 4);
}

void Packing::restart(const std::vector<std::uint8_t>& is_forbidden) {
    clear();
    budget_.spend(rows() * rows() / 4);
    for (std::uint32_t item = 0; item < rows(); ++item)
        if (is_forbidden[item]) basis_.is_free[item] = 1;
}

}  // namespace ligament
