// How much memory and time may a call take?
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace ligament::cli {

/// As given: a size or a time, or "none".
struct Limits {
    std::string memory = "8G";
    std::string time = "1h";
};

void add_limits(CLI::App& app, Limits& limits);

/// Sets the limits for this process and the children that it will have. A limit that is lower already stays. In a build with
/// AddressSanitizer, which takes terabytes of addresses for itself, memory is not limited.
void keep_limits(const Limits& limits);

}  // namespace ligament::cli
