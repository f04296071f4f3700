// How does text of unknown origin stand in GitHub Flavored Markdown without meaning anything there?
#pragma once

#include <string>
#include <string_view>

namespace ligament {

/// Text inside a line or a cell of a table: no emphasis, code, link, tag, mention or end of a cell comes of it. Printable.
std::string markdown_text(std::string_view text);

/// Text as code inside a line or a cell of a table. Printable.
std::string markdown_code(std::string_view text);

}  // namespace ligament
