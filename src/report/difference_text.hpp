// How are two things that ought to be alike shown side by side?
#pragma once

#include <iosfwd>

#include "ligament/report.hpp"

namespace ligament {

/// The differences of a finding as a table of three columns: what, and what it is on either side. Where the finding is about two
/// bones their names stand above. Cells break within their columns, so that no line is wider than the style, which counts as 40
/// at least; what is missing is "-". Nothing without differences.
void write_differences(std::ostream& out, const Rig& rig, const Finding& finding, const TextStyle& style, std::size_t indent);

}  // namespace ligament
