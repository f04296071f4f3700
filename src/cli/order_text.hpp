// How does a person read an evaluation order?
#pragma once

#include <ostream>

#include "ligament/report.hpp"

namespace ligament::cli {

/// Levels with slack, the longest chain, what shortens it, the time on workers, and the order itself.
void write_order_text(std::ostream& out, const Report& report, const TextStyle& style);

}  // namespace ligament::cli
