// Which commands are there?
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <span>

namespace ligament::cli {

/// What a command does once its options are parsed; gives the exit status.
using Run = std::function<int()>;

/// One command. `add` declares its options and examples and gives what to run.
struct Command {
    const char* name;
    const char* summary;
    Run (*add)(CLI::App& app);
    bool is_lasting = false;  ///< goes on until it is stopped: has no --timeout unless one is given
};

/// In the order in which the help lists them.
std::span<const Command> all_commands();

}  // namespace ligament::cli
