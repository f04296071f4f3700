// How does text of unknown origin reach a terminal unharmed and in line? Escapes, widths and line breaks.
#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>

#include "ligament/report.hpp"
#include "utf8.hpp"

namespace ligament {

namespace {

using Range = std::array<char32_t, 2>;

template <std::size_t N>
bool is_in(const std::array<Range, N>& ranges, char32_t character) {
    return std::any_of(ranges.begin(), ranges.end(),
                       [&](const Range& range) { return character >= range[0] && character <= range[1]; });
}

// C0 and C1 controls, marks that turn the direction of writing (UAX #9), line separators, invisible characters.
constexpr std::array<Range, 9> unsafe{{{0x00, 0x1f},
                                       {0x7f, 0x9f},
                                       {0xad, 0xad},
                                       {0x61c, 0x61c},
                                       {0x200b, 0x200f},
                                       {0x2028, 0x202e},
                                       {0x2060, 0x206f},
                                       {0xfeff, 0xfeff},
                                       {0xe0000, 0xe007f}}};

// The blocks that UAX #11 calls wide, as far as names hold them; the rest counts one column.
constexpr std::array<Range, 9> wide{{{0x1100, 0x115f},
                                     {0x2e80, 0x303e},
                                     {0x3041, 0xa4cf},
                                     {0xac00, 0xd7a3},
                                     {0xf900, 0xfaff},
                                     {0xfe30, 0xfe6f},
                                     {0xff00, 0xff60},
                                     {0x1f300, 0x1f64f},
                                     {0x20000, 0x3fffd}}};

// Combining marks of the commonest scripts.
constexpr std::array<Range, 7> combining{
    {{0x300, 0x36f}, {0x483, 0x489}, {0x591, 0x5bd}, {0x610, 0x61a}, {0x64b, 0x65f}, {0x20d0, 0x20ff}, {0xfe00, 0xfe0f}}};

void append_escape(std::string& out, char32_t character) {
    std::array<char, 16> buffer{};
    const char* format = character < 0x100 ? "\\x%02x" : character < 0x10000 ? "\\u%04x" : "\\U%08x";
    std::snprintf(buffer.data(), buffer.size(), format, static_cast<unsigned>(character));
    out += buffer.data();
}

}  // namespace

std::string printable(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    while (!text.empty()) {
        const Decoded decoded = decode(text);
        if (!decoded.valid)
            append_escape(out, static_cast<unsigned char>(text[0]));
        else if (is_in(unsafe, decoded.character))
            append_escape(out, decoded.character);
        else
            out += text.substr(0, decoded.length);
        text.remove_prefix(decoded.length);
    }
    return out;
}

std::size_t columns_of(std::string_view text) {
    std::size_t columns = 0;
    while (!text.empty()) {
        const Decoded decoded = decode(text);
        if (!is_in(combining, decoded.character)) columns += is_in(wide, decoded.character) ? 2U : 1U;
        text.remove_prefix(decoded.length);
    }
    return columns;
}

std::string wrapped(std::string_view text, std::size_t indent, std::size_t width) {
    const std::size_t room = std::max<std::size_t>(width > indent ? width - indent : 0, 20);
    const std::string margin(indent, ' ');
    std::string out;
    std::size_t used = 0;
    while (!text.empty()) {
        const std::size_t space = text.find(' ');
        const std::string_view word = text.substr(0, space);
        text.remove_prefix(space == std::string_view::npos ? text.size() : space + 1);
        const std::size_t columns = columns_of(word);
        if (used > 0 && used + 1 + columns <= room) {
            out.append(" ").append(word);
            used += 1 + columns;
        } else {
            if (used > 0) out += '\n';
            out.append(margin).append(word);
            used = std::max<std::size_t>(columns, 1);
        }
    }
    return out.empty() ? out : out + '\n';
}

std::string place_text(std::string_view source, Place place) {
    std::string text = printable(source);
    if (place.line > 0) text += ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
    return text;
}

std::string pointer_text(std::string_view pointer) { return pointer.empty() ? std::string() : " (" + printable(pointer) + ")"; }

std::string counted_text(std::size_t number, std::string_view noun) {
    std::string text = number == 0 ? "no" : std::to_string(number);
    text.append(" ").append(noun);
    return number == 1 ? text : text + "s";
}

std::string edge_text(const Rig& rig, const Dependencies& dependencies, const FoldedEdge& edge) {
    const bool follows = dependencies.makers[edge.maker].kind == Maker::Kind::follows;
    std::string text{follows ? "follows" : name_of(edge.kind)};
    text += " " + printable(name_of(rig, dependencies, edge.maker));
    for (std::size_t i = 0; i < edge.through.size(); ++i)
        text += (i == 0 ? " through " : ", ") + printable(name_of(rig, dependencies, edge.through[i]));
    return text;
}

}  // namespace ligament
