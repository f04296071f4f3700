// Which input formats are there? One table; a new format is one file and one line of it.
#pragma once

#include <span>
#include <string_view>

#include "ligament/read.hpp"

namespace ligament {

/// An input before it is read.
struct InputText {
    std::string_view path;  ///< "-" for standard input
    std::string_view content;
};

struct Format {
    std::string_view name;
    bool (*recognises)(const InputText& input);
    ReadResult (*read)(const InputText& input, const ReadOptions& options);
};

/// All formats. The first one that recognises an input reads it; the last one takes whatever is left.
std::span<const Format> all_formats();

}  // namespace ligament
