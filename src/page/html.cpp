#include "html.hpp"

#include <algorithm>
#include <stdexcept>

#include "ligament/report.hpp"
#include "text.hpp"

namespace ligament {

namespace {

unsigned digit_of(char c) { return static_cast<unsigned>(c <= '9' ? c - '0' : c - 'a' + 10); }

/// Base64 (RFC 4648) of bytes given in hexadecimal.
std::string base64_of(std::string_view hexadecimal) {
    static constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    unsigned bits = 0, held = 0;
    for (char c : hexadecimal) {
        bits = (bits << 4 | digit_of(c)) & 0xfffU;
        held += 4;
        if (held < 6) continue;
        held -= 6;
        text += letters[bits >> held & 63U];
    }
    if (held > 0) text += letters[bits << (6 - held) & 63U];
    while (text.size() % 4 != 0) text += '=';
    return text;
}

}  // namespace

std::string html_text(std::string_view text) { return escaped(printable(text)); }

std::string page_policy(std::string_view script_hash) {
    std::string policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";
    if (!script_hash.empty()) policy += "; script-src 'sha256-" + base64_of(script_hash) + "'";
    return policy;
}

void write_filled(std::ostream& out, std::string_view markup,
                  std::initializer_list<std::pair<std::string_view, std::string_view>> values) {
    while (true) {
        const std::size_t open = markup.find("{{");
        out << markup.substr(0, open);
        if (open == std::string_view::npos) return;
        const std::size_t close = markup.find("}}", open);
        const std::string_view name = markup.substr(open + 2, close - open - 2);
        const auto* value = std::find_if(values.begin(), values.end(), [&](const auto& pair) { return pair.first == name; });
        if (value == values.end()) throw std::logic_error("nothing to put in place of " + std::string(name));
        out << value->second;
        markup.remove_prefix(close + 2);
    }
}

}  // namespace ligament
