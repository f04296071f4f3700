// What does giving up a maker cost, and how many circuits are wanted, as a call says it?
#pragma once

#include <CLI/CLI.hpp>
#include <span>
#include <string>
#include <vector>

#include "ligament/cycles.hpp"

namespace ligament::cli {

/// Adds --cut-cost and --circuits.
void add_cut_costs(CLI::App& app, std::vector<std::string>& costs);

/// Adds --circuits.
void add_circuits(CLI::App& app, std::size_t& circuits);

/// Costs from "KIND=COST" each; kinds not named keep those of `costs`. Throws Unusable, with the nearest kind for an unknown one,
/// where a text is no such pair, a cost is no whole number from 1 up to CutCosts::highest, or a kind is named twice.
CutCosts read_cut_costs(const std::vector<std::string>& texts, CutCosts costs = {});

/// Throws where a cut leaves a cycle, which is a fault of the program's own.
void expect_cuts_hold(std::span<const CycleCuts> cuts);

}  // namespace ligament::cli
