// What does one rules file say, before it is put together with those that it extends?
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "ligament/review.hpp"
#include "number.hpp"
#include "taker.hpp"

namespace ligament {

/// What stands in the file itself; of thresholds and costs only those that it names.
struct SaidRules {
    Rules rules;
    std::vector<std::pair<std::string, Place>> extends;  ///< paths as written
    std::optional<std::size_t> fan_out;
    std::vector<std::pair<double Thresholds::*, double>> thresholds;
    std::vector<std::pair<std::uint32_t CutCosts::*, std::uint32_t>> costs;
};

/// Reads the text of one file; what it extends is not looked at.
SaidRules read_said_rules(std::string_view text, FaultList& faults);

}  // namespace ligament
