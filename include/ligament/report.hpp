// How is it said? A rig's findings and facts as text for people and as JSON for programs.
#pragma once

#include <iosfwd>
#include <string>

#include "ligament/checks.hpp"

namespace ligament {

/// All that a report speaks about.
struct Report {
    std::string source;  ///< the path as given, "-" for standard input
    const Rig& rig;
    const Dependencies& dependencies;
    const Facts& facts;
    const std::vector<Finding>& findings;
};

/// The report of format version 1 ("rig-report"): one JSON object, ends with a newline. Same rig and source, same bytes.
void write_json(std::ostream& out, const Report& report);

struct TextStyle {
    unsigned width = 80;  ///< columns; messages wrap at it
    bool colour = false;
};

/// Findings grouped by bone group, worst first, then one summary line.
void write_text(std::ostream& out, const Report& report, const TextStyle& style);

}  // namespace ligament
