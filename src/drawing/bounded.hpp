// How is work that may run for hours, or crash, kept from taking us with it?
#pragma once

#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace ligament {

struct BoundedResult {
    std::optional<std::string> bytes;  ///< what the work gave
    bool timed_out = false;
    std::string error;           ///< why there is nothing though there was time
    bool out_of_memory = false;  ///< that is why: RLIMIT_AS of the process bounds each child, too
};

using BoundedWork = std::function<std::string()>;

/// Runs each work in a child process of its own for at most `limit`, up to `workers` at the same time; one result a work, in
/// their order. A child's standard error goes nowhere, a crash of it becomes an error, and nothing of it is left when this
/// returns or throws, nor when the calling process is killed. That process should have one thread.
std::vector<BoundedResult> run_bounded(const std::vector<BoundedWork>& works, std::chrono::milliseconds limit, unsigned workers);

}  // namespace ligament
