#include "uri.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>

namespace ligament {

namespace {

FromUri refused(std::string reason) { return {std::nullopt, std::move(reason)}; }

bool equal_ignoring_case(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
        return std::tolower(static_cast<unsigned char>(x)) == std::tolower(static_cast<unsigned char>(y));
    });
}

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

// RFC 3986, section 2.1.
FromUri percent_decoded(std::string_view text) {
    std::string bytes;
    bytes.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '%') {
            bytes += text[i];
            continue;
        }
        const int high = i + 2 < text.size() ? hex_digit(text[i + 1]) : -1,
                  low = i + 2 < text.size() ? hex_digit(text[i + 2]) : -1;
        if (high < 0 || low < 0) return refused("a \"%\" in its URI is not followed by two hexadecimal digits");
        bytes += static_cast<char>(high * 16 + low);
        i += 2;
    }
    return {std::move(bytes), {}};
}

constexpr std::array<signed char, 256> make_base64_values() {
    std::array<signed char, 256> values{};
    for (signed char& value : values) value = -1;
    signed char next = 0;
    for (const char c : std::string_view("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"))
        values[static_cast<unsigned char>(c)] = next++;
    return values;
}

// Padding may be left out, as many writers do; any other sign, and bits that are left over, are refused.
FromUri base64_decoded(std::string_view text) {
    static constexpr std::array<signed char, 256> values = make_base64_values();
    const std::size_t padded = text.size();
    while (!text.empty() && text.back() == '=' && padded - text.size() < 2) text.remove_suffix(1);
    if (text.size() % 4 == 1 || (padded != text.size() && padded % 4 != 0)) return refused("its base64 breaks off");
    std::string bytes;
    bytes.reserve(text.size() / 4 * 3 + 2);
    std::uint32_t bits = 0;
    unsigned count = 0;
    for (const char c : text) {
        const int value = values[static_cast<unsigned char>(c)];
        if (value < 0) return refused("its base64 holds what is no base64");
        bits = bits << 6U | static_cast<std::uint32_t>(value);
        count += 6;
        if (count < 8) continue;
        count -= 8;
        bytes += static_cast<char>(bits >> count & 0xFFU);
    }
    if ((bits & ((1U << count) - 1)) != 0) return refused("its base64 breaks off");
    return {std::move(bytes), {}};
}

bool has_scheme(std::string_view uri) {
    const std::size_t colon = uri.find(':');
    return colon != std::string_view::npos && colon < uri.find_first_of("/?#");
}

// Why a path leads out of the folder that it starts from, or nothing.
std::string reason_against(const std::filesystem::path& path) {
    if (path.is_absolute()) return "its URI is an absolute path, only files in the folder of this one are read";
    int depth = 0;
    for (const std::filesystem::path& part : path) {
        if (part == "..")
            --depth;
        else if (part != "." && !part.empty())
            ++depth;
        if (depth < 0) return "its URI leads out of the folder of this file";
    }
    return {};
}

}  // namespace

bool is_data_uri(std::string_view uri) { return uri.size() >= 5 && equal_ignoring_case(uri.substr(0, 5), "data:"); }

FromUri decode_data_uri(std::string_view uri) {
    const std::size_t comma = uri.find(',');
    if (comma == std::string_view::npos) return refused("its data: URI has no comma");
    const std::string_view type = uri.substr(0, comma), data = uri.substr(comma + 1);
    constexpr std::string_view base64 = ";base64";
    const bool is_base64 = type.size() >= base64.size() && equal_ignoring_case(type.substr(type.size() - base64.size()), base64);
    if (!is_base64 || data.find('%') == std::string_view::npos) return is_base64 ? base64_decoded(data) : percent_decoded(data);
    const FromUri plain = percent_decoded(data);
    return plain.value ? base64_decoded(*plain.value) : plain;
}

FromUri find_file(std::string_view uri, const std::string& folder) {
    if (folder.empty()) return refused("this input has no folder in which it could be looked for");
    if (uri.starts_with("//") || has_scheme(uri)) return refused("its URI leads elsewhere, and nothing is fetched");
    uri = uri.substr(0, uri.find_first_of("?#"));
    FromUri decoded = percent_decoded(uri);
    if (!decoded.value) return decoded;
    if (decoded.value->empty()) return refused("its URI is empty");
    if (decoded.value->find_first_of(std::string_view("\0\\", 2)) != std::string::npos)
        return refused("its URI holds a sign that no path may have");
    const std::filesystem::path path(*decoded.value);
    if (std::string reason = reason_against(path); !reason.empty()) return refused(std::move(reason));
    std::error_code error;
    const std::filesystem::path base = std::filesystem::canonical(folder, error);
    if (error) return refused("the folder of this file cannot be looked into: " + error.message());
    const std::filesystem::path target = std::filesystem::canonical(base / path, error);
    if (error) return refused("\"" + *decoded.value + "\" cannot be read: " + error.message());
    if (std::mismatch(base.begin(), base.end(), target.begin(), target.end()).first != base.end())
        return refused("\"" + *decoded.value + "\" is a link that leads out of the folder of this file");
    if (!std::filesystem::is_regular_file(target, error)) return refused("\"" + *decoded.value + "\" is no regular file");
    return {target.string(), {}};
}

}  // namespace ligament
