// What do both JSON formats that hold an order say of it beside the order itself?
#pragma once

#include "json_rows.hpp"

namespace ligament::json_rows {

/// ,"slack": ..., "widths": ..., "blocked": ..., "after_cut": ... where there are cuts, and "schedule": ..., each key on a line
/// of its own at an indentation of `indent`, commas in front.
void write_order_keys(JsonOut& out, const Report& report, std::size_t indent);

}  // namespace ligament::json_rows
