// How do lines of words fill the part of a sheet that is left for them?
#include "word_columns.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "lists.hpp"
#include "text.hpp"

namespace ligament {

namespace {

constexpr double leading = 1.4, column_gap = 28, hanging = 10;

struct Pieces {
    std::vector<std::string> words;
    bool is_whole = true;
};

Pieces pieces_of(const Said& said, double width) {
    Pieces pieces;
    pieces.words = broken(said.words, said.size, std::max(20.0, width - said.indent - hanging - 6));
    if (pieces.words.size() > Said::most_pieces) {
        pieces.words.resize(Said::most_pieces);
        pieces.words.back() += "\u2026";
        pieces.is_whole = false;
    }
    for (const std::string& piece : pieces.words)
        pieces.is_whole = pieces.is_whole && said.words.find(piece) != std::string::npos;
    return pieces;
}

double height_of(const Said& said, double width, bool at_top) {
    return static_cast<double>(pieces_of(said, width).words.size()) * said.size * leading + (at_top ? 0 : said.before);
}

double put(Scene& scene, const Said& said, const Rect& column, double y, bool at_top) {
    const Pieces pieces = pieces_of(said, column.width);
    y += at_top ? 0 : said.before;
    for (std::size_t i = 0; i < pieces.words.size(); ++i) {
        Label label;
        label.words = pieces.words[i];
        label.at = {column.x + said.indent + (i > 0 ? hanging : 0), y + said.size};
        label.size = said.size, label.tone = said.tone, label.bold = said.bold, label.about = said.about;
        label.hover = !said.hover.empty() ? said.hover : pieces.is_whole ? "" : said.words;
        if (!label.words.empty()) scene.add(std::move(label));
        y += said.size * leading;
    }
    return y;
}

/// How high the lines stand in one column of this width, the first `count` of them from `first` on.
double height_of(std::span<const Said> lines, std::size_t first, double width) {
    double height = 0;
    for (std::size_t i = first; i < lines.size(); ++i) height += height_of(lines[i], width, i == first);
    return height;
}

}  // namespace

Said said(std::string words, double indent, Tone tone) {
    Said line;
    line.words = std::move(words);
    line.indent = indent;
    line.tone = tone;
    return line;
}

Said heading(std::string words) {
    Said line = said(std::move(words));
    line.size = 11;
    line.bold = line.keep = true;
    line.before = 12;
    return line;
}

Filled fill_column(Scene& scene, const Rect& column, std::span<const Said> lines, std::size_t first) {
    Filled filled{first, column.y};
    while (filled.next < lines.size()) {
        const bool at_top = filled.next == first;
        double height = 0;
        for (std::size_t i = filled.next; i < lines.size(); ++i) {  // with those that it has to stand with
            height += height_of(lines[i], column.width, at_top && i == filled.next);
            if (!lines[i].keep) break;
        }
        if (!at_top && filled.bottom + height > column.bottom()) break;
        filled.bottom = put(scene, lines[filled.next], column, filled.bottom, at_top);
        ++filled.next;
    }
    return filled;
}

Filled fill_columns(Scene& scene, const Rect& area, double narrowest, std::span<const Said> lines, std::size_t first) {
    const double count = std::max(1.0, std::floor((area.width + column_gap) / (narrowest + column_gap)));
    const double width = (area.width - (count - 1) * column_gap) / count;
    double height = std::min(area.height, height_of(lines, first, width) / count);
    for (;; height += 12) {
        height = std::min(height, area.height);
        Scene part;
        Filled filled{first, area.y};
        for (double c = 0; c < count && filled.next < lines.size(); ++c) {
            const Rect column{area.x + c * (width + column_gap), area.y, width, height};
            const Filled one = fill_column(part, column, lines, filled.next);
            filled = {one.next, std::max(filled.bottom, one.bottom)};
        }
        if (filled.next < lines.size() && height < area.height) continue;  // columns do not end evenly
        for (Label& label : part.labels) scene.add(std::move(label));
        return filled;
    }
}

}  // namespace ligament
