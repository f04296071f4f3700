// What is every page made of? The markup, style and script that are bundled at build time.
#pragma once

#include <string_view>

namespace ligament {

/// The markup of a page, with places of the form {{name}} to be filled in.
std::string_view page_markup();

std::string_view page_style();

std::string_view page_script();

/// SHA-256 of the script, as 64 hexadecimal digits.
std::string_view page_script_hash();

}  // namespace ligament
