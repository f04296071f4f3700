// Where in the text does the JSON reader stand, and where it gives up, why?
#include "json_text.hpp"

#include <algorithm>
#include <cmath>

#include "number.hpp"

namespace ligament {

void TextCursor::skip_between_tokens() {
    for (;; ++at) {
        switch (*at) {
            case '\n':
                ++place.line;
                place.column = 1;
                break;
            case ' ':
            case '\t':
            case '\r':
            case ',':
            case ':':
                ++place.column;
                break;
            default:
                return;
        }
    }
}

void TextCursor::skip_ascii(const char* end) {
    place.column += static_cast<std::uint32_t>(end - at);
    at = end;
}

void TextCursor::skip_line_part(const char* end) {
    std::uint32_t points = 0;
    for (const char* p = at; p != end; ++p) points += (static_cast<unsigned char>(*p) & 0xC0U) != 0x80U;
    place.column += points;
    at = end;
}

void TextCursor::skip_text(const char* end) {
    for (; at != end; ++at) {
        if (*at == '\n')
            place = {place.line + 1, 1};
        else if ((static_cast<unsigned char>(*at) & 0xC0U) != 0x80U)
            ++place.column;
    }
}

namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool is_word(char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

std::size_t skip_space(std::string_view text, std::size_t at) {
    while (at < text.size() && is_space(text[at])) ++at;
    return at;
}

// The length of the UTF-8 sequence at `at`, or 0 where there is none (RFC 3629, section 4).
std::size_t utf8_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
    const unsigned lead = byte(at), second = byte(at + 1);
    const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead <= 0xDF) return follows(at + 1) ? 2 : 0;
    if (lead >= 0xE0 && lead <= 0xEF) {
        const bool second_fits = lead == 0xE0 ? second >= 0xA0 : lead == 0xED ? second < 0xA0 : true;
        return follows(at + 1) && second_fits && follows(at + 2) ? 3 : 0;
    }
    if (lead >= 0xF0 && lead <= 0xF4) {
        const bool second_fits = lead == 0xF0 ? second >= 0x90 : lead == 0xF4 ? second < 0x90 : true;
        return follows(at + 1) && second_fits && follows(at + 2) && follows(at + 3) ? 4 : 0;
    }
    return 0;
}

std::string hex(unsigned char byte) {
    static constexpr char digits[] = "0123456789abcdef";
    return {'0', 'x', digits[byte >> 4U], digits[byte & 15U]};
}

// What stands at `at`, for "found ...".
std::string found_at(std::string_view text, std::size_t at) {
    if (at >= text.size()) return "the end of the text";
    std::size_t end = at;
    while (end < text.size() && is_word(text[end]) && end - at < 40) ++end;
    if (end > at) return "\"" + std::string(text.substr(at, end - at)) + "\"";
    if (const auto byte = static_cast<unsigned char>(text[at]); byte < 0x20 || byte == 0x7F) return "the byte " + hex(byte);
    const std::size_t length = utf8_length(text, at);
    if (length == 0) return "the byte " + hex(static_cast<unsigned char>(text[at])) + ", which is not UTF-8";
    return text[at] == '"' ? "a string" : "\"" + std::string(text.substr(at, length)) + "\"";
}

struct Scan {
    std::size_t end = 0;
    std::string message;  // empty: the token is good
    std::size_t offset = 0;
};

bool are_hex(std::string_view digits) {
    return digits.size() == 4 && std::all_of(digits.begin(), digits.end(), [](char c) {
               return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
           });
}

// The code unit of "\uXXXX" at `at`, or -1.
int code_unit(std::string_view text, std::size_t at) {
    if (text.substr(at, 2) != "\\u" || !are_hex(text.substr(at + 2, 4))) return -1;
    return std::stoi(std::string(text.substr(at + 2, 4)), nullptr, 16);
}

Scan scan_escape(std::string_view text, std::size_t at) {
    const char c = at + 1 < text.size() ? text[at + 1] : '\0';
    if (c == 'u') {
        const int unit = code_unit(text, at);
        if (unit < 0) return {at, "wanted four hexadecimal digits after \"\\u\"", at};
        const bool high = unit >= 0xD800 && unit < 0xDC00, low = unit >= 0xDC00 && unit < 0xE000;
        const int next = high ? code_unit(text, at + 6) : 0;
        if (low || (high && (next < 0xDC00 || next > 0xDFFF))) return {at, "half of a surrogate pair", at};
        return {at + (high ? 12 : 6), {}, 0};
    }
    if (std::string_view("\"\\/bfnrt").find(c) == std::string_view::npos || c == '\0')
        return {at, "unknown escape in a string, known are \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\u", at};
    return {at + 2, {}, 0};
}

Scan scan_string(std::string_view text, std::size_t start) {
    for (std::size_t at = start + 1; at < text.size();) {
        const auto byte = static_cast<unsigned char>(text[at]);
        if (byte == '"') return {at + 1, {}, 0};
        if (byte == '\\') {
            Scan escape = scan_escape(text, at);
            if (!escape.message.empty()) return escape;
            at = escape.end;
        } else if (byte < 0x20) {
            const std::string what = byte == '\n' || byte == '\r' ? "a line break" : "the control character " + hex(byte);
            return {at, what + " in a string, write it as an escape or close the string", at};
        } else if (const std::size_t length = utf8_length(text, at)) {
            at += length;
        } else {
            return {at, "the byte " + hex(byte) + " is not UTF-8", at};
        }
    }
    return {text.size(), "string is not closed", start};
}

// The end of the longest number of JSON that starts at `start`, or `start` where there is none.
std::size_t number_end(std::string_view text, std::size_t start) {
    const auto is_at = [&](std::size_t at, std::string_view any) { return at < text.size() && any.find(text[at]) != any.npos; };
    const auto digits_end = [&](std::size_t at) {
        while (is_at(at, "0123456789")) ++at;
        return at;
    };
    const std::size_t whole = start + (is_at(start, "-") ? 1 : 0);
    std::size_t end = is_at(whole, "0") ? whole + 1 : digits_end(whole);
    if (end == whole) return start;
    if (is_at(end, ".") && is_at(end + 1, "0123456789")) end = digits_end(end + 1);
    if (is_at(end, "eE")) {
        const std::size_t power = end + (is_at(end + 1, "+-") ? 2 : 1);
        if (is_at(power, "0123456789")) end = digits_end(power);
    }
    return end;
}

Scan scan_number(std::string_view text, std::size_t start) {
    std::size_t end = start;
    while (end < text.size() && (is_word(text[end]) || text[end] == '.' || text[end] == '+' || text[end] == '-')) ++end;
    if (number_end(text, start) == end) return {end, {}, 0};
    return {end, "\"" + std::string(text.substr(start, std::min<std::size_t>(end - start, 40))) + "\" is not a number of JSON",
            start};
}

// A scalar or the start of a container; a message where it is malformed.
Scan scan_value(std::string_view text, std::size_t at) {
    if (at >= text.size()) return {at, {}, 0};
    if (text[at] == '"') return scan_string(text, at);
    if (text[at] == '-' || (text[at] >= '0' && text[at] <= '9')) return scan_number(text, at);
    std::size_t end = at;
    while (end < text.size() && is_word(text[end])) ++end;
    const std::string_view word = text.substr(at, end - at);
    if (word == "true" || word == "false" || word == "null") return {end, {}, 0};
    if (word == "NaN" || word == "Infinity" || word == "nan" || word == "inf")
        return {end, "\"" + std::string(word) + "\" is not a number of JSON, numbers are finite", at};
    return {at, {}, 0};
}

JsonFault wanted(std::string_view text, std::size_t at, std::string_view what) {
    return {at, "wanted " + std::string(what) + ", found " + found_at(text, at)};
}

JsonFault fault_of_value(std::string_view text, std::size_t at, std::string_view what) {
    Scan scan = scan_value(text, at);
    if (!scan.message.empty()) return {scan.offset, std::move(scan.message)};
    return wanted(text, at, what);
}

JsonFault fault_of_key(std::string_view text, std::size_t at, std::string_view what) {
    if (at >= text.size() || text[at] != '"') return wanted(text, at, what);
    Scan scan = scan_string(text, at);
    if (!scan.message.empty()) return {scan.offset, std::move(scan.message)};
    return wanted(text, skip_space(text, scan.end), "\":\" after a key");
}

}  // namespace

JsonFault describe_json_fault(std::string_view text, std::size_t offset, JsonState state, bool in_object, bool in_array) {
    std::size_t at = skip_space(text, offset);
    switch (state) {
        case JsonState::at_start:
            if (at >= text.size()) return {at, "the input is empty, wanted a rig description"};
            return fault_of_value(text, at, "a value");
        case JsonState::after_key:
            if (at >= text.size() || text[at] != ':') return wanted(text, at, "\":\" after a key");
            return fault_of_value(text, skip_space(text, at + 1), "a value after \":\"");
        case JsonState::after_object_start:
            return fault_of_key(text, at, "a key or \"}\"");
        case JsonState::after_array_start:
            return fault_of_value(text, at, "a value or \"]\"");
        case JsonState::after_value:
            break;
    }
    if (!in_object && !in_array) return {at, "text after the end of the rig description, found " + found_at(text, at)};
    if (at >= text.size() || text[at] != ',') return wanted(text, at, in_object ? "\",\" or \"}\"" : "\",\" or \"]\"");
    at = skip_space(text, at + 1);
    return in_object ? fault_of_key(text, at, "a key after \",\"") : fault_of_value(text, at, "a value after \",\"");
}

std::vector<std::pair<std::size_t, std::size_t>> find_overflows(std::string_view text) {
    std::vector<std::pair<std::size_t, std::size_t>> found;
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == '"') {
            for (++at; at < text.size() && text[at] != '"'; ++at) at += text[at] == '\\' ? 1U : 0U;
            ++at;
        } else if (text[at] == '-' || (text[at] >= '0' && text[at] <= '9')) {
            const std::size_t sign = text[at] == '-' ? 1 : 0, end = std::max(number_end(text, at), at + 1);
            if (std::isinf(number_of(text.substr(at + sign, end - at - sign)))) found.emplace_back(at, end - at);
            at = end;
        } else {
            ++at;
        }
    }
    return found;
}

}  // namespace ligament
