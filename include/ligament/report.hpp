// How is it said? A rig's findings and facts as text for people and as JSON for programs.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <span>
#include <string>
#include <string_view>

#include "ligament/controls.hpp"
#include "ligament/review.hpp"

namespace ligament {

/// All that a report speaks about.
struct Report {
    std::string source;  ///< the path as given, "-" for standard input
    const Rig& rig;
    const Dependencies& dependencies;
    const Facts& facts;
    const std::vector<Finding>& findings;  ///< those that count
    const Review* review = nullptr;        ///< what else there is to say of findings, where there are rules or a baseline
};

/// The report of format version 1 ("rig-report"): one JSON object, ends with a newline. Same rig and source, same bytes.
void write_json(std::ostream& out, const Report& report);

struct TextStyle {
    unsigned width = 80;  ///< columns; messages wrap at it
    bool colour = false;
    Severity failing = Severity::error;  ///< the mildest severity that fails a rig
};

/// Findings grouped by bone group, worst first, then one summary line.
void write_text(std::ostream& out, const Report& report, const TextStyle& style);

/// The findings alone, as write_text writes them.
void write_finding_list(std::ostream& out, const Report& report, const TextStyle& style);

/// What a person reads about the cycle at a place of Facts::cycles: its witness edge by edge, the cheapest cut with what it takes
/// from deform bones, and its circuits where the facts have them. Long lists are shown in part and say so. Lines start with
/// `indent` spaces or more.
void write_cycle_text(std::ostream& out, const Report& report, std::size_t index, const TextStyle& style, std::size_t indent);

/// The cycles alone, as JSON ("rig-cycles", version 1), each as in the report. Reads no findings.
void write_cycles_json(std::ostream& out, const Report& report);

/// The evaluation order alone, as JSON ("rig-order", version 1): what "order" of the report says, at any costs, and the edges of
/// the longest chain. Reads no findings.
void write_order_json(std::ostream& out, const Report& report);

/// Of which rig and state a report on controls speaks.
struct ControlsReport {
    std::string source;  ///< the path as given, "-" for standard input
    const Rig& rig;
    std::string state_name = "default";
};

/// What all controls move and the single points of all deform bones, as JSON ("rig-controls", version 1).
void write_controls_json(std::ostream& out, const ControlsReport& report, const ControlFacts& facts);

/// The same format for one control: its counts under "controls" and its bones by name under "bones".
void write_moved_bones_json(std::ostream& out, const ControlsReport& report, BoneId control, const MovedBones& moved);

/// Which controls move which deform bones, limb by limb, as each switch stands.
struct StatesReport {
    std::string source;
    const Rig& rig;
    const std::vector<Switch>& switches;
    const std::vector<StateTable>& tables;
    std::string others = {};  ///< the state in which the other switches are, where that is not the default one
};

void write_states_text(std::ostream& out, const StatesReport& report, const TextStyle& style);

/// One table a limb, to be pasted into a document (GitHub Flavored Markdown).
void write_states_markdown(std::ostream& out, const StatesReport& report);

/// Format "rig-states", version 1.
void write_states_json(std::ostream& out, const StatesReport& report);

/// What several reports in a row come to.
struct Totals {
    std::size_t rigs = 0;        ///< reported
    std::size_t unreadable = 0;  ///< given, but not reported for their faults
    std::size_t bones = 0, errors = 0, warnings = 0, notes = 0;

    void add(const Report& report);
    void add(const Totals& other);
};

/// A rig of which there is no report.
struct Unreadable {
    std::string source;  ///< the path as given
    std::vector<Fault> faults;
};

/// An output format of reports. Several reports stand between open() and close(), with between() among them; one stands alone,
/// unless the format has an `envelope`: then it stands between them, too.
struct ReportFormat {
    std::string_view name;
    std::string_view summary;
    bool has_envelope = false;
    void (*write)(std::ostream& out, const Report& report, const TextStyle& style);
    /// In the place of a report; only for several, or in an envelope. Writes nothing where faults are told elsewhere alone.
    void (*write_unreadable)(std::ostream& out, const Unreadable& unreadable, const TextStyle& style);
    void (*open)(std::ostream& out);
    void (*between)(std::ostream& out);
    void (*close)(std::ostream& out, const Totals& totals, const TextStyle& style);
};

/// All output formats; the first is the one to use where none is named.
std::span<const ReportFormat> all_report_formats();

/// `text` as a terminal may safely show it: control characters, those that turn the direction of writing, and bytes that are
/// no UTF-8 are spelled out, as \x1b and \u202e.
std::string printable(std::string_view text);

/// The columns that printable text takes on a terminal: two for wide East Asian characters, none for combining ones.
std::size_t columns_of(std::string_view text);

/// Printable text broken at its spaces so that no line is wider than `width`, if its words allow it; every line starts with
/// `indent` spaces and ends with a newline. At least 20 columns are used for the text.
std::string wrapped(std::string_view text, std::size_t indent, std::size_t width);

/// "rig.json:12:9", or the source alone for what did not come from a file. Printable.
std::string place_text(std::string_view source, Place place);

/// " (/nodes/12)" for a JSON Pointer, printable; nothing for an empty one.
std::string pointer_text(std::string_view pointer);

/// A time with at most twelve digits that count: "3", "0.3".
std::string time_text(double time);

/// "1 error", "2 warnings", "no notes".
std::string counted_text(std::size_t number, std::string_view noun);

/// A folded edge as people read it: "constraint b/track", with what lies in between: "driver b/rotation.x through slider".
/// Printable.
std::string edge_text(const Rig& rig, const Dependencies& dependencies, const FoldedEdge& edge);

}  // namespace ligament
