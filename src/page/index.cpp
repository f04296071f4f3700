// How is one of several pages found?
#include <algorithm>

#include "assets.hpp"
#include "html.hpp"
#include "ligament/page.hpp"

namespace ligament {

namespace {

std::string cell(std::string_view text) { return "<td>" + html_text(text) + "</td>"; }

std::string number_cell(std::size_t number) { return "<td class=\"number\">" + std::to_string(number) + "</td>"; }

/// A file name as a relative reference (RFC 3986): no scheme, no path, nothing but letters, digits and escapes.
std::string reference_of(std::string_view file) {
    static constexpr std::string_view digits = "0123456789ABCDEF";
    std::string text;
    for (char c : file) {
        const auto byte = static_cast<unsigned char>(c);
        const bool is_plain =
            (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' || c == '_' || c == '.';
        if (is_plain)
            text += c;
        else
            (text += '%').append({digits[byte >> 4], digits[byte & 15]});
    }
    return text;
}

std::string row_of(const IndexEntry& entry) {
    if (entry.link.empty())
        return "<tr><th scope=\"row\">" + html_text(entry.source) +
               "</th><td colspan=\"8\">no page: " + html_text(entry.unreadable) + "</td></tr>\n";
    const std::string name = entry.name.empty() ? entry.source : entry.name;
    return "<tr><th scope=\"row\"><a href=\"" + reference_of(entry.link) + "\">" + html_text(name) + "</a></th>" +
           cell(entry.source) + number_cell(entry.bones) + number_cell(entry.deform) + number_cell(entry.controls) +
           number_cell(entry.errors) + number_cell(entry.warnings) + number_cell(entry.notes) +
           cell(entry.worst.empty() ? "no findings" : entry.worst) + "</tr>\n";
}

}  // namespace

IndexEntry index_entry(const Report& report, const std::string& link) {
    IndexEntry entry;
    entry.source = report.source;
    entry.link = link;
    entry.name = report.rig.name;
    entry.bones = report.rig.bones.size();
    for (const Bone& bone : report.rig.bones) {
        entry.deform += bone.deform ? 1 : 0;
        entry.controls += bone.control ? 1 : 0;
    }
    for (const Finding& finding : report.findings)
        ++(finding.severity == Severity::error     ? entry.errors
           : finding.severity == Severity::warning ? entry.warnings
                                                   : entry.notes);
    if (!report.findings.empty()) {
        const Finding& worst = report.findings.front();  // findings stand worst first
        entry.worst = std::string(name_of(worst.severity)) + ": " + worst.message;
    }
    return entry;
}

void write_page_index(std::ostream& out, std::span<const IndexEntry> entries) {
    const auto pages = std::count_if(entries.begin(), entries.end(), [](const IndexEntry& entry) { return !entry.link.empty(); });
    out << "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" "
           "content=\""
        << page_policy("")
        << "\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>Rigs</title>\n<style>\n"
        << page_style() << "</style>\n</head>\n<body class=\"index\">\n<main>\n<h1>Rigs</h1>\n<p>"
        << counted_text(entries.size(), "rig") << ", " << counted_text(static_cast<std::size_t>(pages), "page") << "</p>\n"
        << "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Table of rigs\">\n<table>\n<thead><tr><th "
           "scope=\"col\">rig</th>"
           "<th scope=\"col\">file</th>";
    for (const char* head : {"bones", "deform", "controls", "errors", "warnings", "notes"})
        out << "<th scope=\"col\" class=\"number\">" << head << "</th>";
    out << "<th scope=\"col\">worst finding</th></tr></thead>\n<tbody>\n";
    for (const IndexEntry& entry : entries) out << row_of(entry);
    out << "</tbody>\n</table>\n</div>\n</main>\n</body>\n</html>\n";
}

}  // namespace ligament
