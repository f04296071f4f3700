// What are the words of a JSON text (RFC 8259), and where there is none, why?
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "ligament/finding.hpp"

namespace ligament {

/// What is wrong in a text, and how many bytes stand before it.
struct JsonFault {
    std::size_t offset = 0;
    std::string message;
};

/// A string of a text.
struct JsonString {
    std::size_t end = 0;              ///< behind its last quotation mark
    std::uint32_t continuations = 0;  ///< bytes in it that only continue a character
    bool has_escapes = false;
    JsonFault fault = {};  ///< with a message where it is no string
};

/// A number of a text.
struct JsonNumber {
    std::size_t end = 0;  ///< where it begins, if it is none or breaks off
    double value = 0.0;   ///< the nearest double; infinite where it is too large. -0 is 0, as it is an integer; -0.0 is not
};

/// The string that begins with the quotation mark at `start`. Its bytes are UTF-8 (RFC 3629).
JsonString scan_string(std::string_view text, std::size_t start);
/// What stands between the quotation marks of a string that was found good, its escapes decoded.
void decode_string(std::string_view between, std::string& decoded);
/// The number that begins at `start`.
JsonNumber scan_number(std::string_view text, std::size_t start);

/// "wanted a value, found "x"".
JsonFault wanted(std::string_view text, std::size_t at, std::string_view what);
/// What is wrong at `at`, where a value should begin. Not for strings.
JsonFault fault_of_value(std::string_view text, std::size_t at, std::string_view what);
/// What stands at `at`, as messages call it: a word, a character, "the byte 0x01", "the end of the text".
std::string found_at(std::string_view text, std::size_t at);

/// The place behind a text that begins at `place`: columns count code points.
Place place_behind(Place place, std::string_view text);

}  // namespace ligament
