// Which number does a run of digits stand for?
#pragma once

#include <string_view>

namespace ligament {

/// The double nearest to an unsigned decimal number ("12", "0.5", ".5", "5.", "1e-3"), whatever the locale. Infinity where it is
/// too large for a double, 0 where it is too small; NaN where the text is no such number.
double number_of(std::string_view digits);

}  // namespace ligament
