// What do build servers read that know tests alone? JUnit XML: a suite a rig, a case a check.
#include <algorithm>
#include <ostream>

#include "formats.hpp"
#include "ligament/checks.hpp"
#include "review_text.hpp"
#include "utf8.hpp"

namespace ligament {

namespace {

/// Whether XML 1.0 can hold a character (section 2.2).
bool is_in_xml(char32_t c) {
    return c == '\t' || c == '\n' || c == '\r' || (c >= 0x20 && c <= 0xd7ff) || (c >= 0xe000 && c <= 0xfffd) || c >= 0x10000;
}

/// Text inside an element, or an attribute. What XML cannot hold, and bytes that are no UTF-8, become U+FFFD.
std::string xml(std::string_view text, bool is_attribute = false) {
    std::string out;
    while (!text.empty()) {
        const Decoded decoded = decode(text);
        const std::string_view bytes = text.substr(0, decoded.length);
        text.remove_prefix(decoded.length);
        if (!decoded.valid || !is_in_xml(decoded.character))
            out += "\xef\xbf\xbd";
        else if (decoded.character == '&')
            out += "&amp;";
        else if (decoded.character == '<')
            out += "&lt;";
        else if (decoded.character == '>')
            out += "&gt;";
        else if (decoded.character == '"')
            out += "&quot;";
        else if (decoded.character == '\r' || (is_attribute && decoded.character < 0x20))  // or reading would change it
            out += "&#" + std::to_string(static_cast<unsigned>(decoded.character)) + ';';
        else
            out += bytes;
    }
    return out;
}

std::string attribute(std::string_view name, std::string_view value) {
    return " " + std::string(name) + "=\"" + xml(value, true) + '"';
}

/// "heron.rig.json:12:9", not made printable: xml() does what XML needs.
std::string place_of_text(std::string_view source, Place place) {
    std::string text(source);
    if (place.line > 0) text += ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
    return text;
}

std::string with_pointer(const std::string& pointer) { return pointer.empty() ? "" : " (" + pointer + ")"; }

std::string finding_text(const Report& report, const Finding& finding) {
    std::string text = place_of_text(report.source, finding.place) + ": " + std::string(name_of(finding.severity)) + ": " +
                       finding.message + with_pointer(finding.pointer) + '\n';
    if (!finding.hint.empty()) text += "hint: " + finding.hint + '\n';
    for (const Difference& one : finding.differences) text += one.what + ": \"" + one.left + "\", \"" + one.right + "\"\n";
    return text;
}

std::string set_aside_line(const Report& report, const SetAside& set_aside) {
    const bool by_rules = set_aside.by == SetAside::By::rules;
    std::string text = by_rules ? "accepted by rules" : "known by the baseline";
    if (!set_aside.reason.empty()) text += " (" + set_aside.reason + ")";
    return text + ": " + finding_text(report, set_aside.finding);
}

/// All that is said by one check about a rig.
struct Case {
    std::string_view check;
    std::vector<const Finding*> failing, milder;
    std::vector<const SetAside*> set_aside;

    bool fails() const { return !failing.empty(); }
    bool is_skipped() const { return failing.empty() && !set_aside.empty(); }
};

std::vector<Case> cases_of(const Report& report, Severity failing) {
    std::vector<Case> cases;
    for (const Check& check : all_checks()) cases.push_back({.check = check.name, .failing = {}, .milder = {}, .set_aside = {}});
    const auto case_of = [&](std::string_view check) -> Case& {
        const auto found = std::find_if(cases.begin(), cases.end(), [&](const Case& one) { return one.check == check; });
        if (found != cases.end()) return *found;
        return cases.emplace_back(Case{.check = check, .failing = {}, .milder = {}, .set_aside = {}});
    };
    for (const Finding& finding : report.findings) {
        Case& one = case_of(finding.check);
        (finding.severity >= failing ? one.failing : one.milder).push_back(&finding);
    }
    if (report.review != nullptr)
        for (const SetAside& set_aside : report.review->set_aside)
            case_of(set_aside.finding.check).set_aside.push_back(&set_aside);
    return cases;
}

void write_failure(std::ostream& out, const Report& report, const Case& one) {
    const Finding& first = *one.failing.front();  // findings come worst first
    std::string message = first.message;
    if (one.failing.size() > 1) message = counted_text(one.failing.size(), "finding") + ", the first: " + message;
    out << "      <failure" << attribute("message", message) << attribute("type", name_of(first.severity)) << '>';
    for (const Finding* finding : one.failing) out << xml(finding_text(report, *finding));
    out << "</failure>\n";
}

std::string skipped_message(const Case& one) {
    const auto by_rules = static_cast<std::size_t>(std::count_if(
        one.set_aside.begin(), one.set_aside.end(), [](const SetAside* of) { return of->by == SetAside::By::rules; }));
    std::string text;
    if (by_rules > 0) text = std::to_string(by_rules) + " accepted by rules";
    if (const std::size_t known = one.set_aside.size() - by_rules; known > 0)
        text += (text.empty() ? "" : ", ") + std::to_string(known) + " known by the baseline";
    return text;
}

void write_case(std::ostream& out, const Report& report, const Case& one) {
    out << "    <testcase" << attribute("classname", report.source) << attribute("name", one.check);
    if (one.failing.empty() && one.milder.empty() && one.set_aside.empty()) {
        out << "/>\n";
        return;
    }
    out << ">\n";
    if (one.fails()) write_failure(out, report, one);
    if (one.is_skipped()) out << "      <skipped" << attribute("message", skipped_message(one)) << "/>\n";
    if (!one.milder.empty() || !one.set_aside.empty()) {
        out << "      <system-out>";
        for (const Finding* finding : one.milder) out << xml(finding_text(report, *finding));
        for (const SetAside* set_aside : one.set_aside) out << xml(set_aside_line(report, *set_aside));
        out << "</system-out>\n";
    }
    out << "    </testcase>\n";
}

void write_suite_head(std::ostream& out, std::string_view name, std::size_t tests, std::size_t failures, std::size_t errors,
                      std::size_t skipped) {
    out << "  <testsuite" << attribute("name", name) << " tests=\"" << tests << "\" failures=\"" << failures << "\" errors=\""
        << errors << "\" skipped=\"" << skipped << "\">\n";
}

void write(std::ostream& out, const Report& report, const TextStyle& style) {
    const std::vector<Case> cases = cases_of(report, style.failing);
    const auto count = [&](bool (Case::*is)() const) {
        return static_cast<std::size_t>(std::count_if(cases.begin(), cases.end(), [&](const Case& one) { return (one.*is)(); }));
    };
    write_suite_head(out, report.source, cases.size(), count(&Case::fails), 0, count(&Case::is_skipped));
    out << "    <properties>\n      <property name=\"rig\"" << attribute("value", report.rig.name)
        << "/>\n      <property name=\"state\"" << attribute("value", report.facts.state_name) << "/>\n    </properties>\n";
    for (const Case& one : cases) write_case(out, report, one);
    if (report.review != nullptr && !report.review->gone.empty()) {
        out << "    <system-out>";
        for (const Identity& identity : report.review->gone) out << xml("not found any more: " + gone_text(identity) + "\n");
        out << "</system-out>\n";
    }
    out << "  </testsuite>\n";
}

void write_unreadable(std::ostream& out, const Unreadable& unreadable, const TextStyle&) {
    const std::size_t faults = unreadable.faults.size();
    write_suite_head(out, unreadable.source, faults, 0, faults, 0);
    for (std::size_t i = 0; i < faults; ++i) {
        const Fault& fault = unreadable.faults[i];
        out << "    <testcase" << attribute("classname", unreadable.source)
            << attribute("name", "read, fault " + std::to_string(i + 1)) << ">\n      <error"
            << attribute("message", fault.message) << " type=\"fault\">"
            << xml(place_of_text(unreadable.source, fault.place) + ": " + fault.message + with_pointer(fault.pointer))
            << "</error>\n    </testcase>\n";
    }
    out << "  </testsuite>\n";
}

}  // namespace

namespace formats {

extern constinit const ReportFormat junit{
    .name = "junit",
    .summary = "for build servers that know tests: JUnit XML, a suite a rig, a case a check",
    .has_envelope = true,
    .write = write,
    .write_unreadable = write_unreadable,
    .open = [](std::ostream& out) { out << "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites name=\"ligament\">\n"; },
    .between = [](std::ostream&) {},
    .close = [](std::ostream& out, const Totals&, const TextStyle&) { out << "</testsuites>\n"; }};

}  // namespace formats

}  // namespace ligament
