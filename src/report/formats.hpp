// What do output formats add to writing one report?
#pragma once

#include <iosfwd>

#include "ligament/report.hpp"

namespace ligament {

/// The line below the text reports of several rigs.
void write_text_total(std::ostream& out, const Totals& totals);

/// Formats that are written in the file of their name alone.
namespace formats {
extern const ReportFormat sarif, junit, markdown;
}

}  // namespace ligament
