// Which characters stand in bytes of unknown origin?
#pragma once

#include <cstddef>
#include <string_view>

namespace ligament {

/// The first character of a text. Of bytes that are no UTF-8 each is one that is not valid.
struct Decoded {
    char32_t character = 0;
    std::size_t length = 1;
    bool valid = false;
};

/// RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF. `text` is not empty.
Decoded decode(std::string_view text);

}  // namespace ligament
