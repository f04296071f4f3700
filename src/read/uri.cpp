#include "uri.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <filesystem>
#include <system_error>
#include <vector>

#include "draft.hpp"

namespace ligament {

namespace {

namespace fs = std::filesystem;

// `lower` is in lower case. ASCII alone, whatever the locale.
bool is_same_word(std::string_view text, std::string_view lower) {
    const auto is_same = [](char a, char b) { return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b; };
    return std::equal(text.begin(), text.end(), lower.begin(), lower.end(), is_same);
}

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

std::string place_in(std::string_view text, std::size_t i) {
    return "byte " + std::to_string(i + 1) + " of " + std::to_string(text.size());
}

// RFC 3986, section 2.1.
std::string decode_percent(std::string_view text, std::string& decoded) {
    decoded.clear();
    decoded.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '%') {
            decoded += text[i];
            continue;
        }
        const int high = i + 2 < text.size() ? hex_digit(text[i + 1]) : -1;
        const int low = i + 2 < text.size() ? hex_digit(text[i + 2]) : -1;
        if (high < 0 || low < 0) return "a \"%\" without two hexadecimal digits behind it, at " + place_in(text, i);
        decoded += static_cast<char>(high * 16 + low);
        i += 2;
    }
    return {};
}

constexpr std::uint8_t no_digit = 64;

constexpr std::array<std::uint8_t, 256> base64_digits = [] {
    std::array<std::uint8_t, 256> digits{};
    digits.fill(no_digit);
    constexpr std::string_view alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    for (std::size_t i = 0; i < alphabet.size(); ++i)
        digits[static_cast<unsigned char>(alphabet[i])] = static_cast<std::uint8_t>(i);
    return digits;
}();

// RFC 4648, section 4. No line breaks (3.1), padding is a must (3.2), nothing from outside of the alphabet (3.3).
std::string decode_base64(std::string_view text, std::string& data) {
    data.clear();
    if (text.size() % 4 != 0) return "base64 has a multiple of 4 characters, this one " + std::to_string(text.size());
    std::size_t digits = text.size();
    for (int padding = 0; padding < 2 && digits > 0 && text[digits - 1] == '='; ++padding) --digits;
    data.reserve(text.size() / 4 * 3);
    std::uint32_t bits = 0;
    for (std::size_t i = 0; i < digits; ++i) {
        const std::uint8_t digit = base64_digits[static_cast<unsigned char>(text[i])];
        if (digit == no_digit) return "a character that is none of base64, at " + place_in(text, i);
        bits = bits << 6U | digit;
        if (i % 4 != 0) data += static_cast<char>(bits >> (6 - i % 4 * 2) & 255U);
    }
    return {};
}

// The scheme that a text begins with, up to ":" and before "/", "?" and "#" (RFC 3986, section 4.2: a relative reference has no
// ":" in its first segment).
std::string_view scheme_of(std::string_view uri) {
    const std::size_t end = uri.find_first_of(":/?#\\");
    return end != std::string_view::npos && uri[end] == ':' ? uri.substr(0, end) : std::string_view();
}

// Why a URI means no path below the folder that it stands in, as far as its characters tell.
std::string refusal_of(std::string_view uri) {
    if (uri.empty()) return "it is empty";
    if (uri.find('\\') != std::string_view::npos) return "it has a backslash";
    const std::string_view scheme = scheme_of(uri);
    if (!scheme.empty() || uri.front() == ':')
        return "it has the scheme " + in_quotes(scheme) + ", read are relative URIs and \"data\" alone";
    if (uri.substr(0, 2) == "//") return "it names a host";
    if (uri.front() == '/') return "its path is absolute";
    if (uri.find('?') != std::string_view::npos) return "it has a query (\"?\"), a file takes none";
    if (uri.find('#') != std::string_view::npos) return "it has a fragment (\"#\"), a file takes none";
    return {};
}

// The path below the folder, with dot segments taken out (RFC 3986, section 5.2.4). Segments are told apart before they are
// decoded, so that an encoded separator is found as what it is.
std::string find_relative_path(std::string_view uri, std::string& path) {
    std::vector<std::string> segments;
    std::string segment;
    for (std::size_t at = 0; at <= uri.size();) {
        const std::size_t end = std::min(uri.find('/', at), uri.size());
        if (std::string reason = decode_percent(uri.substr(at, end - at), segment); !reason.empty()) return reason;
        if (segment.find('/') != std::string::npos) return "it has an encoded slash (\"%2F\")";
        if (segment.find('\\') != std::string::npos) return "it has an encoded backslash (\"%5C\")";
        if (segment.find('\0') != std::string::npos) return "it has a NUL byte";
        const bool is_last = end == uri.size();
        if (segment.empty() || (is_last && (segment == "." || segment == "..")))
            return is_last ? "it names a folder, not a file" : "it has an empty part between slashes";
        if (segment == "..") {
            if (segments.empty()) return "it leads out of the folder";
            segments.pop_back();
        } else if (segment != ".") {
            segments.push_back(segment);
        }
        at = end + 1;
    }
    path.clear();
    for (const std::string& part : segments) (path += path.empty() ? "" : "/") += part;
    return {};
}

bool is_below(const fs::path& path, const fs::path& folder) {
    return std::mismatch(folder.begin(), folder.end(), path.begin(), path.end()).first == folder.end();
}

}  // namespace

bool is_data_uri(std::string_view uri) { return is_same_word(uri.substr(0, 5), "data:"); }

std::string decode_data_uri(std::string_view uri, std::string& data) {
    data.clear();
    const std::size_t comma = uri.find(',');
    if (!is_data_uri(uri)) return "it has not the scheme \"data\"";
    if (comma == std::string_view::npos) return "a data URI has a comma before its data, this one has none";
    // Parameters are not looked at, the last one tells the encoding.
    const std::string_view header = uri.substr(5, comma - 5);
    const std::size_t semicolon = header.rfind(';');
    const bool is_base64 = semicolon != std::string_view::npos && is_same_word(header.substr(semicolon + 1), "base64");
    const std::string_view encoded = uri.substr(comma + 1);
    if (is_base64 && encoded.find('%') == std::string_view::npos) return decode_base64(encoded, data);
    std::string decoded;
    if (std::string reason = decode_percent(encoded, decoded); !reason.empty()) return reason;
    if (is_base64) return decode_base64(decoded, data);
    data = std::move(decoded);
    return {};
}

std::string find_file_of_uri(std::string_view uri, const std::string& folder, std::string& path) {
    if (std::string reason = refusal_of(uri); !reason.empty()) return reason;
    std::string relative;
    if (std::string reason = find_relative_path(uri, relative); !reason.empty()) return reason;
    if (folder.empty()) return "there is no folder to look for it in";
    std::error_code error;
    const fs::path inside = fs::canonical(folder, error);
    if (error) return "the folder " + in_quotes(folder) + ": " + error.message();
    const fs::path target = fs::canonical(inside / relative, error);
    if (error) return error.message();
    if (!is_below(target, inside)) return "a symbolic link leads out of the folder";
    if (!fs::is_regular_file(target, error)) return error ? error.message() : "it is no regular file";
    path = target.string();
    return {};
}

}  // namespace ligament
