// What may be called? All commands with their options, put together.
#pragma once

#include <memory>
#include <string_view>
#include <utility>
#include <vector>

#include "commands.hpp"
#include "limits.hpp"

namespace ligament::cli {

/// The definitions that a call is parsed by, and what parsing fills in. Not to be moved: definitions refer to members.
struct Program {
    CLI::App app;
    Limits limits;
    Limits limits_of_lasting{.memory = limits.memory, .time = "none"};  ///< those wait for people
    std::vector<std::pair<CLI::App*, Run>> commands;

    /// With a name the command of that name alone gets its options, the others are known by name only: half a millisecond less.
    explicit Program(std::string_view only = {});
    Program(const Program&) = delete;
    Program& operator=(const Program&) = delete;
};

}  // namespace ligament::cli
