// How do rows line up in columns?
#pragma once

#include <ostream>
#include <string>
#include <vector>

namespace ligament::cli {

/// Rows of printable cells. A column whose letter in `alignment` is 'r' is flushed right, all others left. Two spaces between
/// columns, no spaces at the end of a line. Rows may be shorter than others.
void write_table(std::ostream& out, const std::vector<std::vector<std::string>>& rows, std::size_t indent,
                 const std::string& alignment = {});

}  // namespace ligament::cli
