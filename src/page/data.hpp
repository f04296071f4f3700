// What does the script of a page get to read?
#pragma once

#include <string>

#include "ligament/page.hpp"

namespace ligament {

/// All data of a page as one JSON object, fit to stand in a script element: "<" does not occur. Names and messages are printable,
/// ids are places in lists; -1 is "none". Columns are lists with one entry an element.
std::string page_data(const PageContents& contents);

}  // namespace ligament
