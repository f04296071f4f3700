// How do single values of a report become JSON? Rows that json.cpp and order_json.cpp share.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <ostream>
#include <span>

#include "ligament/report.hpp"

namespace ligament::json_rows {

using Row = nlohmann::ordered_json;

/// One row on one line. What is not UTF-8 (no reader lets it in) becomes U+FFFD instead of an exception.
std::string text_of(const Row& row);

/// A string as JSON, quotes included. Shortcut for plain ASCII, since a report may hold millions of names.
void write_string(std::ostream& out, std::string_view text);

/// What every JSON format opens with, up to the state that it speaks of; a comma has to follow.
void write_head(std::ostream& out, std::string_view format, const Rig& rig, std::string_view source, std::string_view state_key,
                std::string_view state);

/// How a format that does not judge in the default state calls the state: "any" where none was asked for, since every weight that
/// is not fixed at 0 counts.
std::string_view state_or_any(const Facts& facts);

/// The names of bones as an array on one line, written one by one, so that no copy of a long list is made.
void write_names(std::ostream& out, const Rig& rig, std::span<const BoneId> bones);

/// The names of bones as an array.
Row names_of(const Rig& rig, std::span<const BoneId> bones);

/// An edge of a witness or chain; its ends are properties when `between_properties`, else bones.
Row edge_row(const Report& report, const FoldedEdge& edge, bool between_properties = false);

/// An array of `count` elements, one a line, at an indentation of `indent`; "[]" when empty.
void write_rows(std::ostream& out, std::size_t count, std::size_t indent, const std::function<void(std::size_t)>& write_row);

}  // namespace ligament::json_rows
