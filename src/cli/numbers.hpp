// Which numbers may stand after an option?
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <limits>

namespace ligament::cli {

/// 0, 1, 2, ... in digits alone, up to `most`.
CLI::Validator whole_number(std::uint32_t most = std::numeric_limits<std::uint32_t>::max());

/// 1, 2, ... in digits alone, up to what 32 bits hold.
CLI::Validator workers();

/// A finite number above 0, at most 1e6.
CLI::Validator seconds();

}  // namespace ligament::cli
