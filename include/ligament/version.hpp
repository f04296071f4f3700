// Which ligament is this?
#pragma once

#include <string_view>

namespace ligament {

/// The version of the library and program, "major.minor.patch".
std::string_view version();

}  // namespace ligament
