// Where does a run of bytes end that a JSON text has masses of? Indentation, and the plain characters of a string.
//
// Names, keys and indentation are short and of any length, which no processor guesses: one byte at a time each of them costs a
// wrong guess. Eight at a time find the end of most without a loop, and take half the instructions. Inline, as each is called
// once a line or string.
#pragma once

#include <bit>
#include <cstdint>
#include <cstring>
#include <string_view>

namespace ligament {

namespace json_runs {

/// Times a byte: eight of it.
inline constexpr std::uint64_t each = 0x0101'0101'0101'0101;

inline std::uint64_t eight_bytes(std::string_view text, std::size_t at) {
    std::uint64_t bytes;
    std::memcpy(&bytes, text.data() + at, sizeof bytes);
    return bytes;
}

/// The top bit of the first of eight bytes that is not plain, and perhaps those of later ones.
inline std::uint64_t not_plain(std::uint64_t bytes) {
    const auto below = [](std::uint64_t of, std::uint64_t limit) { return (of - each * limit) & ~of; };
    return (below(bytes, 0x20) | below(bytes ^ (each * '"'), 1) | below(bytes ^ (each * '\\'), 1) | bytes) & (each * 0x80);
}

}  // namespace json_runs

/// Stands for itself in a string, and is a character of its own.
inline bool is_plain(unsigned char byte) { return byte >= 0x20 && byte < 0x80 && byte != '"' && byte != '\\'; }

/// The end of a run of spaces that begins at `at`.
inline std::size_t end_of_spaces(std::string_view text, std::size_t at) {
    if constexpr (std::endian::native == std::endian::little)
        for (; text.size() - at >= 8; at += 8)
            if (const std::uint64_t others = json_runs::eight_bytes(text, at) ^ (json_runs::each * ' '); others != 0)
                return at + static_cast<std::size_t>(std::countr_zero(others)) / 8;
    while (at < text.size() && text[at] == ' ') ++at;
    return at;
}

/// The end of a run of plain bytes that begins at `at`.
inline std::size_t end_of_plain(std::string_view text, std::size_t at) {
    if constexpr (std::endian::native == std::endian::little)
        for (; text.size() - at >= 8; at += 8)
            if (const std::uint64_t others = json_runs::not_plain(json_runs::eight_bytes(text, at)); others != 0)
                return at + static_cast<std::size_t>(std::countr_zero(others)) / 8;
    while (at < text.size() && is_plain(static_cast<unsigned char>(text[at]))) ++at;
    return at;
}

}  // namespace ligament
