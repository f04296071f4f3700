#include "utf8.hpp"

namespace ligament {

Decoded decode(std::string_view text) {
    auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    if (lead < 0x80) return {lead, 1, true};
    const std::size_t length = lead >= 0xf0 && lead < 0xf5 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc2 ? 2 : 0;
    if (length == 0 || lead >= 0xf5 || text.size() < length) return {};
    char32_t character = lead & (0x7fU >> length);
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xc0) != 0x80) return {};
        character = (character << 6) | (byte(i) & 0x3f);
    }
    const bool overlong = (length == 3 && character < 0x800) || (length == 4 && character < 0x10000);
    if (overlong || character > 0x10ffff || (character >= 0xd800 && character < 0xe000)) return {};
    return {character, length, true};
}

}  // namespace ligament
