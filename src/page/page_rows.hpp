// How do the parts of a rig become JSON for a page? Ids are places in lists, -1 is "none".
#pragma once

#include "json_rows.hpp"
#include "ligament/page.hpp"
#include "weight_tables.hpp"

namespace ligament::page_rows {

using json_rows::Row;

/// The id, or -1 for none.
std::int64_t id_or_none(std::uint32_t id);

Row ids(std::span<const std::uint32_t> ids);

/// A list as value, count, value, count, ...
Row runs(std::span<const std::int64_t> values);

/// The edges that searches follow, as columns in runs.
Row graph_row(const Rig& rig, const Dependencies& dependencies);

Row bones_row(const Rig& rig);
Row properties_row(const Rig& rig);
Row objects_row(const Rig& rig);

/// By driver: where it stands, what it drives and how.
Row drivers_row(const Rig& rig, const Dependencies& dependencies);

/// By constraint, in file order.
Row constraints_row(const Rig& rig, const Dependencies& dependencies, const State& state);

Row switches_row(const Rig& rig, std::span<const SwitchChoice> choices);
Row weights_row(std::span<const WeightTable> tables);

}  // namespace ligament::page_rows
