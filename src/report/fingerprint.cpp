#include "fingerprint.hpp"

#include <cstdint>

#include "json_rows.hpp"

namespace ligament {

namespace {

__extension__ using Wide = unsigned __int128;

constexpr Wide wide(std::uint64_t high, std::uint64_t low) { return (Wide{high} << 64) | low; }

}  // namespace

std::string fnv1a_128(std::string_view bytes) {
    constexpr Wide prime = wide(0x0000000001000000, 0x000000000000013b);
    Wide hash = wide(0x6c62272e07bb0142, 0x62b821756295c58d);
    for (const char byte : bytes) hash = (hash ^ static_cast<unsigned char>(byte)) * prime;
    std::string text;
    for (int shift = 124; shift >= 0; shift -= 4) text += "0123456789abcdef"[static_cast<unsigned>(hash >> shift) & 0xfU];
    return text;
}

std::string fingerprint_of(const Identity& identity) {
    using json_rows::Row;
    return fnv1a_128(json_rows::text_of(Row::array({identity.check, Row(identity.bones), identity.subject, identity.maker})));
}

}  // namespace ligament
