// How do states become JSON? What gets worse in which, where cycles are live, and how many were looked at.
#pragma once

#include "json_rows.hpp"

namespace ligament::json_rows {

/// `worse_in`, and where there are any `worse_in_combinations`, of the deform bone at a place of AttachmentFacts::deform.
void write_worse(Fields& row, JsonOut& out, const Report& report, std::size_t place);

/// The names of the states in which the cycle at a place of Facts::cycles is left.
Row live_in_row(const Report& report, std::size_t index);

/// The switches with their stops, and how many states and combinations were looked at.
void write_states(JsonOut& out, const Report& report);

}  // namespace ligament::json_rows
