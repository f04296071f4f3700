// How does text get into HTML unharmed?
#pragma once

#include <initializer_list>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>

namespace ligament {

/// Printable text with `&`, `<`, `>` and both quotes as entities: fit for elements and for quoted attributes.
std::string html_text(std::string_view text);

/// The Content-Security-Policy of a document: nothing is loaded from anywhere. `script_hash` (SHA-256 in hexadecimal) is that of
/// the one script that may run; empty: none.
std::string page_policy(std::string_view script_hash);

/// Writes `markup` with each {{name}} replaced by its value, which is not looked through again.
void write_filled(std::ostream& out, std::string_view markup,
                  std::initializer_list<std::pair<std::string_view, std::string_view>> values);

}  // namespace ligament
