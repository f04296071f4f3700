// How does a rig get in and out: reading the formats in the table of formats, and writing the rig description.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/finding.hpp"
#include "ligament/rig.hpp"

namespace ligament {

/// What reading gave: a rig, or every fault of the input in the order of their places. `rig` is set exactly when `faults` is
/// empty.
struct ReadResult {
    std::optional<Rig> rig;
    std::vector<Fault> faults;
};

/// Reads a rig description (format version 1) from its whole text in one pass. All faults are found in one run; where the JSON
/// itself breaks off, names are not resolved, since they might stand in the part that was not read.
ReadResult read_rig(std::string_view text);

/// Reads a file, or standard input when `path` is "-". A file that cannot be read is a fault at place 0:0.
ReadResult read_rig_file(const std::string& path);

/// The rig as a rig description: stable key order, defaults left out, ends with a newline. Reading it gives an equal rig but for
/// places.
std::string write_rig(const Rig& rig);

/// The JSON Schema (draft 2020-12) of the rig description, as published in src/read/rig_description.schema.json.
std::string_view rig_description_schema();

/// The known name nearest to `name` (edit distance with transpositions, at most a third of its length), or an empty string.
/// Ties go to the earlier one.
std::string nearest_name(std::string_view name, const std::vector<std::string_view>& known);

}  // namespace ligament
