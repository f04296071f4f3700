// How do people read what rules and a baseline set aside?
#pragma once

#include <string>

#include "ligament/report.hpp"

namespace ligament {

/// What a finding that is gone was about: cycle of "a", "b" (a/track). As the names are, not made printable.
std::string gone_text(const Identity& identity);

/// "3 findings accepted by rules, 5 known by the baseline"; empty where nothing is set aside.
std::string set_aside_text(const Review& review);

}  // namespace ligament
