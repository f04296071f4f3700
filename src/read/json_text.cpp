#include "json_text.hpp"

#include <algorithm>
#include <charconv>

#include "json_runs.hpp"
#include "number.hpp"

namespace ligament {

namespace {

bool is_word(char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

bool is_digit(char c) { return c >= '0' && c <= '9'; }

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

// The code unit of "\uXXXX" at `at`, or -1.
int code_unit(std::string_view text, std::size_t at) {
    if (text.substr(at, 2) != "\\u") return -1;
    const std::string_view digits = text.substr(at + 2, 4);
    unsigned unit = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), unit, 16);
    return digits.size() == 4 && error == std::errc{} && end == digits.data() + 4 ? static_cast<int>(unit) : -1;
}

bool is_high_surrogate(int unit) { return unit >= 0xD800 && unit < 0xDC00; }
bool is_low_surrogate(int unit) { return unit >= 0xDC00 && unit < 0xE000; }

constexpr std::string_view escapes = "\"\\/bfnrt", escaped = "\"\\/\b\f\n\r\t";

// What is wrong with the escape at `at`, or how long it is.
std::string_view fault_of_escape(std::string_view text, std::size_t at, std::size_t& length) {
    const char c = at + 1 < text.size() ? text[at + 1] : '\0';
    if (c != 'u') {
        length = 2;
        return escapes.find(c) == std::string_view::npos
                   ? "unknown escape in a string, known are \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\u"
                   : "";
    }
    const int unit = code_unit(text, at);
    if (unit < 0) return "wanted four hexadecimal digits after \"\\u\"";
    const bool is_half = is_low_surrogate(unit) || (is_high_surrogate(unit) && !is_low_surrogate(code_unit(text, at + 6)));
    length = is_high_surrogate(unit) ? 12 : 6;
    return is_half ? "half of a surrogate pair" : "";
}

void append_utf8(std::string& out, unsigned point) {
    const auto continuation = [&](unsigned shift) { out += static_cast<char>(0x80U | (point >> shift & 0x3FU)); };
    if (point < 0x80) {
        out += static_cast<char>(point);
    } else if (point < 0x800) {
        out += static_cast<char>(0xC0U | point >> 6U);
        continuation(0);
    } else if (point < 0x10000) {
        out += static_cast<char>(0xE0U | point >> 12U);
        continuation(6);
        continuation(0);
    } else {
        out += static_cast<char>(0xF0U | point >> 18U);
        continuation(12);
        continuation(6);
        continuation(0);
    }
}

std::size_t end_of_digits(std::string_view text, std::size_t at) {
    while (at < text.size() && is_digit(text[at])) ++at;
    return at;
}

// The end of what follows the digits of a whole number, or 0 where it breaks off.
std::size_t end_of_fraction_and_power(std::string_view text, std::size_t at) {
    const auto is_at = [&](std::size_t i, char c) { return i < text.size() && text[i] == c; };
    if (is_at(at, '.')) {
        const std::size_t fraction = at + 1;
        at = end_of_digits(text, fraction);
        if (at == fraction) return 0;
    }
    if (is_at(at, 'e') || is_at(at, 'E')) {
        const std::size_t power = at + (is_at(at + 1, '+') || is_at(at + 1, '-') ? 2 : 1);
        at = end_of_digits(text, power);
        if (at == power) return 0;
    }
    return at;
}

JsonFault fault_of_number(std::string_view text, std::size_t start) {
    std::size_t end = start;
    while (end < text.size() && (is_word(text[end]) || text[end] == '.' || text[end] == '+' || text[end] == '-')) ++end;
    return {start, "\"" + std::string(text.substr(start, std::min<std::size_t>(end - start, 40))) + "\" is not a number of JSON"};
}

}  // namespace

JsonString scan_string(std::string_view text, std::size_t start) {
    JsonString string;
    for (std::size_t at = start + 1; at < text.size();) {
        const auto byte = static_cast<unsigned char>(text[at]);
        if (is_plain(byte)) {
            at = end_of_plain(text, at);
        } else if (byte == '"') {
            string.end = at + 1;
            return string;
        } else if (byte == '\\') {
            std::size_t length = 0;
            const std::string_view message = fault_of_escape(text, at, length);
            if (!message.empty()) return {.fault = {at, std::string(message)}};
            string.has_escapes = true;
            at += length;
        } else if (byte < 0x20) {
            const std::string what = byte == '\n' || byte == '\r' ? "a line break" : "the control character " + hex(byte);
            return {.fault = {at, what + " in a string, write it as an escape or close the string"}};
        } else if (const std::size_t length = utf8_length(text, at)) {
            string.continuations += static_cast<std::uint32_t>(length - 1);
            at += length;
        } else {
            return {.fault = {at, "the byte " + hex(byte) + " is not UTF-8"}};
        }
    }
    return {.fault = {start, "string is not closed"}};
}

void decode_string(std::string_view between, std::string& decoded) {
    decoded.clear();
    for (std::size_t at = 0; at < between.size();) {
        const std::size_t plain = std::min(between.find('\\', at), between.size());
        decoded.append(between, at, plain - at);
        at = plain;
        if (at == between.size()) return;
        if (between[at + 1] != 'u') {
            decoded += escaped[escapes.find(between[at + 1])];
            at += 2;
            continue;
        }
        auto point = static_cast<unsigned>(code_unit(between, at));
        at += 6;
        if (is_high_surrogate(static_cast<int>(point))) {
            point = 0x10000U + ((point - 0xD800U) << 10U) + (static_cast<unsigned>(code_unit(between, at)) - 0xDC00U);
            at += 6;
        }
        append_utf8(decoded, point);
    }
}

JsonNumber scan_number(std::string_view text, std::size_t start) {
    const std::size_t whole = start + (text[start] == '-' ? 1 : 0);
    std::size_t end = whole;
    std::uint64_t value = 0;  // of so many digits as fit
    for (; end < text.size() && is_digit(text[end]) && (end == whole || text[whole] != '0'); ++end)
        value = 10 * value + static_cast<std::uint64_t>(text[end] - '0');
    if (end == whole) return {start};
    const bool is_integer = end == text.size() || (text[end] != '.' && (text[end] | 0x20) != 'e');
    constexpr std::size_t exact_digits = 15;
    if (is_integer && end - whole <= exact_digits) {
        const auto integer = static_cast<std::int64_t>(value);
        return {end, static_cast<double>(whole == start ? integer : -integer)};
    }
    if (!is_integer && (end = end_of_fraction_and_power(text, end)) == 0) return {start};
    const double number = number_of(text.substr(whole, end - whole));
    return {end, whole == start ? number : -number};
}

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

JsonFault wanted(std::string_view text, std::size_t at, std::string_view what) {
    return {at, "wanted " + std::string(what) + ", found " + found_at(text, at)};
}

JsonFault fault_of_value(std::string_view text, std::size_t at, std::string_view what) {
    if (at < text.size() && (text[at] == '-' || is_digit(text[at]))) return fault_of_number(text, at);
    std::size_t end = at;
    while (end < text.size() && is_word(text[end])) ++end;
    const std::string_view word = text.substr(std::min(at, text.size()), end - at);
    if (word == "NaN" || word == "Infinity" || word == "nan" || word == "inf")
        return {at, "\"" + std::string(word) + "\" is not a number of JSON, numbers are finite"};
    return wanted(text, at, what);
}

Place place_behind(Place place, std::string_view text) {
    for (const char c : text)
        if (c == '\n')
            place = {place.line + 1, 1};
        else
            place.column += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    return place;
}

}  // namespace ligament
