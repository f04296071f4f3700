// What does a step of an evaluation cost, as a call says it?
#pragma once

#include <string>
#include <vector>

#include "ligament/order.hpp"

namespace ligament::cli {

/// Costs from "KIND=COST" each; kinds not named keep their default. Throws Unusable, with the nearest kind for an unknown one,
/// where a text is no such pair, a cost is no number from 0 up to StepCosts::highest, or a kind is named twice.
StepCosts read_step_costs(const std::vector<std::string>& texts);

}  // namespace ligament::cli
