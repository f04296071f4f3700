// Which numbers may stand after an option?
#pragma once

#include <CLI/CLI.hpp>

namespace ligament::cli {

/// 0, 1, 2, ... in digits alone, up to what 32 bits hold.
CLI::Validator whole_number();

/// 1, 2, ... in digits alone, up to what 32 bits hold.
CLI::Validator workers();

/// A finite number above 0, at most 1e6.
CLI::Validator seconds();

}  // namespace ligament::cli
