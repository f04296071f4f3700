// Which number does a run of digits stand for, and how is a number written?
#pragma once

#include <string>
#include <string_view>

namespace ligament {

/// The double nearest to an unsigned decimal number ("12", "0.5", ".5", "5.", "1e-3"), whatever the locale. Infinity where it is
/// too large for a double, 0 where it is too small; NaN where the text is no such number.
double number_of(std::string_view digits);

/// The shortest text that stands for the number: "0", "0.5", "1e+20".
std::string number_text(double number);

}  // namespace ligament
