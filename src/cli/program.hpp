// How does a call of the program run?
#pragma once

namespace ligament::cli {

/// Parses the call, runs its command and gives the exit status. Never throws.
int run_program(int argc, char** argv) noexcept;

}  // namespace ligament::cli
