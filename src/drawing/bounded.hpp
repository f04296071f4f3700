// How is work that may run for hours, or crash, kept from taking us with it?
#pragma once

#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace ligament {

struct BoundedResult {
    std::optional<std::vector<double>> values;  ///< what the work gave
    bool timed_out = false;
    std::string error;  ///< why there are no values though there was time
};

/// Runs `work` in a child process for at most `limit`. The child's standard error goes nowhere, a crash of it becomes an error,
/// and nothing of it is left when this returns. The calling process should have one thread.
BoundedResult run_bounded(std::chrono::milliseconds limit, const std::function<std::vector<double>()>& work);

}  // namespace ligament
