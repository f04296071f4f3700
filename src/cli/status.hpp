// How does a call end? Exit statuses, and the way out for a call that cannot be carried out.
#pragma once

#include <array>
#include <stdexcept>
#include <string_view>

namespace ligament::cli {

enum Status : int {
    fine = 0,      ///< nothing at or above the failing severity
    found = 1,     ///< something
    unusable = 2,  ///< the input or the call cannot be used, the output cannot be written, or memory or time ran out
    broken = 3     ///< a fault of the program's own
};

struct StatusWords {
    Status status;
    std::string_view words;
};

/// What help and manual say of each.
inline constexpr std::array<StatusWords, 4> status_words{{{fine, "nothing at or above the failing severity"},
                                                          {found, "something"},
                                                          {unusable, "the input or the call cannot be used"},
                                                          {broken, "a fault of the program's own"}}};

/// Ends a call with status `unusable`; the text goes to standard error in one line. An empty text: all has been said already.
struct Unusable : std::runtime_error {
    using std::runtime_error::runtime_error;
};

}  // namespace ligament::cli
