// Does a name fit a pattern?
#pragma once

#include <string>
#include <vector>

namespace ligament {

/// `*` stands for any text, `?` for one character, `[a-z]` for one of some (POSIX shell patterns, whole name, UTF-8).
bool is_named_by(const std::string& pattern, const std::string& name);

/// By any of several. No pattern: no.
bool is_named_by(const std::vector<std::string>& patterns, const std::string& name);

}  // namespace ligament
