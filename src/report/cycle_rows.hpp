// How does a cycle become JSON, with its cuts and circuits? Rows that the report and the cycles alone share.
#pragma once

#include "json_rows.hpp"

namespace ligament::json_rows {

/// The cycle at a place of Facts::cycles, with what the facts know of its cuts, states and circuits.
Row cycle_row(const Report& report, std::size_t index);

}  // namespace ligament::json_rows
