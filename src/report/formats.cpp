// Which output formats are there? The one table of formats.
#include "formats.hpp"

#include <array>
#include <ostream>

namespace ligament {

std::span<const ReportFormat> all_report_formats() {
    // Copied at the first call: formats hold constants only, so that all of them exist before any code runs.
    static const std::array<ReportFormat, 5> table{{
        {.name = "text",
         .summary = "for people: findings by bone group, worst first",
         .write = write_text,
         .write_unreadable = [](std::ostream&, const Unreadable&, const TextStyle&) {},
         .open = [](std::ostream&) {},
         .between = [](std::ostream& out) { out << '\n'; },
         .close = [](std::ostream& out, const Totals& totals, const TextStyle&) { write_text_total(out, totals); }},
        {.name = "json",
         .summary = "for programs: one object a rig, an array for several",
         .write = [](std::ostream& out, const Report& report, const TextStyle&) { write_json(out, report); },
         .write_unreadable = [](std::ostream&, const Unreadable&, const TextStyle&) {},
         .open = [](std::ostream& out) { out << "[\n"; },
         .between = [](std::ostream& out) { out << ",\n"; },
         .close = [](std::ostream& out, const Totals&, const TextStyle&) { out << "]\n"; }},
        formats::sarif,
        formats::junit,
        formats::markdown,
    }};
    return table;
}

}  // namespace ligament
