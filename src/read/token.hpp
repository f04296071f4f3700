// What is one piece of a JSON text?
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "ligament/finding.hpp"

namespace ligament {

/// One scalar of the text, or the start of an object or list.
struct Token {
    enum class Type : std::uint8_t { text, number, flag, null, list, object };
    Type type = Type::null;
    std::string_view text = {};  ///< a string, decoded
    bool lasts = false;          ///< `text` stands in the input as it is, without escapes
    double number = 0.0;
    bool flag = false;
    Place place = {};
    std::size_t offset = 0;  ///< bytes of the text before it
};

}  // namespace ligament
