// Which input formats are there? One table; a new format is one file and one line of it.
#pragma once

#include <span>
#include <string_view>

#include "ligament/read.hpp"

namespace ligament {

struct Format {
    std::string_view name;
    /// Whether an input is of this format, by its path ("-" for standard input) and its content.
    bool (*recognises)(std::string_view path, std::string_view content);
    ReadResult (*read)(std::string_view content);
};

/// All formats. The first one that recognises an input reads it; the last one takes whatever is left.
std::span<const Format> all_formats();

}  // namespace ligament
