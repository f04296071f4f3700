// How wide is a text, and how is a name written so that it is harmless?
#include "text.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>
#include <vector>

namespace ligament {

namespace {

using Range = std::pair<char32_t, char32_t>;

// East_Asian_Width W and F of UAX #11, from memory and put right by a test against the Unicode Character Database. Blocks of
// pictures that are mostly wide count as wide altogether.
constexpr std::array<Range, 59> wide{
    {{0x1100, 0x115F},   {0x231A, 0x231B},   {0x2329, 0x232A},   {0x23E9, 0x23EC},   {0x23F0, 0x23F0},   {0x23F3, 0x23F3},
     {0x25FD, 0x25FE},   {0x2614, 0x2615},   {0x2648, 0x2653},   {0x267F, 0x267F},   {0x2693, 0x2693},   {0x26A1, 0x26A1},
     {0x26AA, 0x26AB},   {0x26BD, 0x26BE},   {0x26C4, 0x26C5},   {0x26CE, 0x26CE},   {0x26D4, 0x26D4},   {0x26EA, 0x26EA},
     {0x26F2, 0x26F3},   {0x26F5, 0x26F5},   {0x26FA, 0x26FA},   {0x26FD, 0x26FD},   {0x2705, 0x2705},   {0x270A, 0x270B},
     {0x2728, 0x2728},   {0x274C, 0x274C},   {0x274E, 0x274E},   {0x2753, 0x2755},   {0x2757, 0x2757},   {0x2795, 0x2797},
     {0x27B0, 0x27B0},   {0x27BF, 0x27BF},   {0x2B1B, 0x2B1C},   {0x2B50, 0x2B50},   {0x2B55, 0x2B55},   {0x2E80, 0x303E},
     {0x3041, 0x3247},   {0x3250, 0x4DBF},   {0x4E00, 0xA4CF},   {0xA960, 0xA97F},   {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},
     {0xFE10, 0xFE19},   {0xFE30, 0xFE6F},   {0xFF01, 0xFF60},   {0xFFE0, 0xFFE6},   {0x16FE0, 0x18D08}, {0x1AFF0, 0x1B2FF},
     {0x1F004, 0x1F004}, {0x1F0CF, 0x1F0CF}, {0x1F18E, 0x1F18E}, {0x1F191, 0x1F19A}, {0x1F200, 0x1F265}, {0x1F300, 0x1F64F},
     {0x1F680, 0x1F6FF}, {0x1F7E0, 0x1F7F0}, {0x1F900, 0x1F9FF}, {0x1FA70, 0x1FAFF}, {0x20000, 0x3FFFD}}};

// Controls, and the combining and invisible ranges that names of bones may be expected to hold; from memory.
constexpr std::array<Range, 31> zero{{{0x0000, 0x001F},  {0x007F, 0x009F}, {0x00AD, 0x00AD}, {0x0300, 0x036F}, {0x0483, 0x0489},
                                      {0x0591, 0x05BD},  {0x05BF, 0x05BF}, {0x05C1, 0x05C2}, {0x0610, 0x061A}, {0x061C, 0x061C},
                                      {0x064B, 0x065F},  {0x0670, 0x0670}, {0x06D6, 0x06DC}, {0x06DF, 0x06E4}, {0x06E7, 0x06E8},
                                      {0x093C, 0x093C},  {0x0941, 0x0948}, {0x094D, 0x094D}, {0x0E31, 0x0E31}, {0x0E34, 0x0E3A},
                                      {0x0E47, 0x0E4E},  {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F}, {0x2028, 0x202E},
                                      {0x2060, 0x206F},  {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF},
                                      {0xE0001, 0xE01EF}}};

template <std::size_t n>
bool is_in(const std::array<Range, n>& ranges, char32_t c) {
    auto after = std::upper_bound(ranges.begin(), ranges.end(), c, [](char32_t x, const Range& r) { return x < r.first; });
    return after != ranges.begin() && c <= std::prev(after)->second;
}

void append_utf8(std::string& out, char32_t c) {
    auto put = [&](char32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
    if (c < 0x80) return put(c);
    if (c < 0x800) {
        put(0xC0 | (c >> 6));
    } else {
        if (c < 0x10000) {
            put(0xE0 | (c >> 12));
        } else {
            put(0xF0 | (c >> 18));
            put(0x80 | ((c >> 12) & 0x3F));
        }
        put(0x80 | ((c >> 6) & 0x3F));
    }
    put(0x80 | (c & 0x3F));
}

bool reaches_beyond_the_name(char32_t c) { return (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069); }

// The Char production of XML 1.0, section 2.2, less what is a control without a picture (U+007F to U+009F are discouraged there).
bool is_drawable(char32_t c) {
    return c >= 0x20 && !(c >= 0x7F && c <= 0x9F) && !(c >= 0xD800 && c <= 0xDFFF) && c != 0xFFFE && c != 0xFFFF && c <= 0x10FFFF;
}

}  // namespace

char32_t next_code_point(std::string_view text, std::size_t& at) {
    constexpr char32_t malformed = 0xFFFD;
    auto byte = [&](std::size_t i) { return static_cast<char32_t>(static_cast<unsigned char>(text[i])); };
    const char32_t first = byte(at++);
    if (first < 0x80) return first;
    const std::size_t more = first >= 0xF0 && first < 0xF5   ? 3
                             : first >= 0xE0 && first < 0xF0 ? 2
                                                             : first >= 0xC2 && first < 0xE0;
    if (more == 0 || at + more > text.size()) return malformed;
    char32_t c = first & (0x3Fu >> more);
    for (std::size_t i = 0; i < more; ++i) {
        if ((byte(at + i) & 0xC0) != 0x80) return malformed;
        c = (c << 6) | (byte(at + i) & 0x3F);
    }
    constexpr std::array<char32_t, 4> least{0, 0x80, 0x800, 0x10000};
    if (c < least[more] || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return malformed;
    at += more;
    return c;
}

double advance_of(char32_t code_point) {
    if (is_in(zero, code_point)) return 0.0;
    return is_in(wide, code_point) ? 1.0 : 0.6;
}

double width_of(std::string_view text, double size) {
    double em = 0;
    for (std::size_t at = 0; at < text.size();) em += advance_of(next_code_point(text, at));
    return em * size;
}

std::string drawable(std::string_view name) {
    std::string out;
    out.reserve(name.size());
    for (std::size_t at = 0; at < name.size();) {
        char32_t c = next_code_point(name, at);
        if (c == '\t' || c == '\n' || c == '\r')
            c += 0x2400;  // the block Control Pictures mirrors the controls in order
        else if (!is_drawable(c) || reaches_beyond_the_name(c))
            c = 0xFFFD;
        append_utf8(out, c);
    }
    return out;
}

std::string cut_in_middle(std::string_view text, double size, double width) {
    if (width_of(text, size) <= width) return std::string(text);
    std::vector<std::size_t> starts;  // of base characters
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t start = at;
        if (advance_of(next_code_point(text, at)) > 0 || start == 0) starts.push_back(start);
    }
    starts.push_back(text.size());
    constexpr std::string_view ellipsis = "\u2026";
    double left = width - width_of(ellipsis, size);
    std::size_t head = 0, tail = starts.size() - 1;
    for (bool at_head = true; head < tail; at_head = !at_head) {
        const std::size_t from = at_head ? starts[head] : starts[tail - 1], to = at_head ? starts[head + 1] : starts[tail];
        left -= width_of(text.substr(from, to - from), size);
        if (left < 0) break;
        at_head ? ++head : --tail;
    }
    return std::string(text.substr(0, starts[head])).append(ellipsis).append(text.substr(starts[tail]));
}

std::string isolated(std::string_view text) {
    const bool ascii = std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
    return ascii ? std::string(text) : std::string("\u2068").append(text).append("\u2069");
}

std::string escaped(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (char c : text) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            case '\'':
                out += "&#39;";
                break;
            default:
                out += c;
        }
    }
    return out;
}

}  // namespace ligament
