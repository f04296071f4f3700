// How do places, names and checks become values of SARIF 2.1.0?
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "json_rows.hpp"

namespace ligament::sarif {

using json_rows::Row;

/// Text of unknown origin inside a message: printable, and without what SARIF reads as placeholders or links.
std::string escaped(std::string_view text);

/// A message that holds this text. Names in it must have been escaped.
Row message(std::string text);

/// A path as a URI reference (RFC 3986): relative as given, without "./"; absolute ones get the scheme file.
std::string uri_of(std::string_view path);

/// The one artifact of a run: the file of the rig, or standard input.
Row artifact_of(std::string_view source);

/// Where something stands. `place` may be none (line 0): then the file alone.
Row physical_location(std::string_view source, Place place);

/// "note", "warning", "error".
std::string_view level_of(Severity severity);

/// The tool with a rule for each check.
Row tool();

/// The place of a check among the rules, or nothing.
std::optional<std::size_t> rule_index(std::string_view check);

/// Names bones, properties and makers as logical locations. Refers to the report.
class LogicalNames {
  public:
    explicit LogicalNames(const Report& report);

    /// The bones, the subject and the maker of a finding, which may be gone from the rig.
    Row of(const Identity& identity) const;

  private:
    std::unordered_set<std::string_view> properties_, objects_;
    std::unordered_map<std::string, std::string_view> makers_;  // by name: constraint, driver or solver
};

}  // namespace ligament::sarif
