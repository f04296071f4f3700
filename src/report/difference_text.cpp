#include "difference_text.hpp"

#include <algorithm>
#include <array>
#include <ostream>

namespace ligament {

namespace {

using Cells = std::array<std::string, 3>;
using Widths = std::array<std::size_t, 3>;

constexpr std::size_t gap = 2, least_room = 36;

/// The end of the longest beginning of printable text that fits the columns, at least one character.
std::size_t fitting(std::string_view text, std::size_t columns) {
    std::size_t end = 0;
    for (std::size_t at = 0; at < text.size();) {
        std::size_t next = at + 1;
        while (next < text.size() && (static_cast<unsigned char>(text[next]) & 0xc0U) == 0x80) ++next;
        if (end > 0 && columns_of(text.substr(0, next)) > columns) break;
        end = at = next;
    }
    return end;
}

/// Broken at spaces, and within words that are wider than the column.
std::vector<std::string> lines_of(std::string_view text, std::size_t columns) {
    std::vector<std::string> lines;
    while (columns_of(text) > columns) {
        const std::size_t end = fitting(text, columns);
        const std::size_t space = text.substr(0, end + 1).rfind(' ');
        const bool at_space = space != std::string_view::npos && space > 0;
        lines.emplace_back(text.substr(0, at_space ? space : end));
        text.remove_prefix(at_space ? space + 1 : end);
    }
    lines.emplace_back(text);
    return lines;
}

/// As wide as the widest cell where there is room; else the widest columns give way to each other.
Widths widths_of(const std::vector<Cells>& rows, std::size_t room) {
    Widths widths{1, 1, 1};
    for (const Cells& row : rows)
        for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], columns_of(row[c]));
    while (widths[0] + widths[1] + widths[2] + 2 * gap > room) --*std::max_element(widths.begin(), widths.end());
    return widths;
}

void write_row(std::ostream& out, const Cells& row, const Widths& widths, std::size_t indent) {
    std::array<std::vector<std::string>, 3> lines;
    std::size_t height = 0;
    for (std::size_t c = 0; c < row.size(); ++c) {
        lines[c] = lines_of(row[c], widths[c]);
        height = std::max(height, lines[c].size());
    }
    for (std::size_t l = 0; l < height; ++l) {
        std::string line(indent, ' ');
        std::size_t wanted = indent;
        for (std::size_t c = 0; c < row.size(); ++c) {
            if (l < lines[c].size() && !lines[c][l].empty()) {
                line.append(wanted - columns_of(line), ' ');
                line += lines[c][l];
            }
            wanted += widths[c] + gap;
        }
        out << line << '\n';
    }
}

}  // namespace

void write_differences(std::ostream& out, const Rig& rig, const Finding& finding, const TextStyle& style, std::size_t indent) {
    if (finding.differences.empty()) return;
    std::vector<Cells> rows;
    if (finding.bones.size() == 2)
        rows.push_back({"", printable(rig.bones[finding.bones[0]].name), printable(rig.bones[finding.bones[1]].name)});
    const auto cell = [](const std::string& text) { return text.empty() ? "-" : printable(text); };
    for (const Difference& difference : finding.differences)
        rows.push_back({printable(difference.what), cell(difference.left), cell(difference.right)});
    const Widths widths = widths_of(rows, std::max<std::size_t>(style.width > indent ? style.width - indent : 0, least_room));
    for (const Cells& row : rows) write_row(out, row, widths, indent);
}

}  // namespace ligament
