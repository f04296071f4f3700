// What do driven values come to when a few properties change? The evaluation of one state turned into that of another.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "expression.hpp"
#include "ligament/states.hpp"
#include "property_order.hpp"

namespace ligament {

/// Holds the evaluation of a state and brings it up to date driver by driver, at a cost that grows with what depends on the
/// change. The same values as evaluate() gives.
class StateEvaluator {
  public:
    /// Starts in the default state.
    StateEvaluator(const Rig& rig, const Dependencies& dependencies);
    /// In the state of the other one; makes expressions ready on its own.
    StateEvaluator(const StateEvaluator& other);
    StateEvaluator(StateEvaluator&&) = default;

    const Evaluation& evaluation() const { return evaluation_; }

    struct Change {
        PropertyId property = none;
        double value = 0.0;
    };
    /// Sets undriven properties; all others stay as they are. Gives the drivers whose value may have changed, ascending, those of
    /// properties left out.
    const std::vector<DriverId>& set(const std::vector<Change>& changes);

    /// Undoes the last set(). Linear in what that changed.
    void unset();
    /// Back to the default state. Linear in what was set since.
    void reset();

  private:
    void evaluate_driver(DriverId driver);
    void note_readers(PropertyId property);

    const Rig& rig_;
    const Dependencies& dependencies_;
    ExpressionEvaluator expressions_;
    Evaluation evaluation_;
    PropertyOrder order_;
    Rows readers_;                         ///< by property: the drivers that read it, ascending
    std::vector<std::uint32_t> prepared_;  ///< by driver: its expression made ready, or none
    std::vector<std::uint32_t> places_;    ///< a heap: the places of driven properties to evaluate
    std::vector<DriverId> touched_;
    std::vector<double> inputs_;

    struct OldDriver {
        DriverId driver;
        double value;
    };
    std::vector<OldDriver> old_drivers_;
    std::vector<Change> old_properties_;
    std::vector<std::pair<std::size_t, std::size_t>> sets_;  ///< how many old drivers and properties there were before each set()
};

}  // namespace ligament
