// What is in a file, if it is not too large?
#pragma once

#include <string>

namespace ligament {

/// Reads a file, or standard input where `path` is "-", into `content`. Gives why it cannot be read, or an empty text. Never
/// holds much more than twice `limit`, however long a pipe or device goes on.
std::string read_whole_file(const std::string& path, std::size_t limit, std::string& content);

}  // namespace ligament
