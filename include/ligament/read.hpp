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

/// What is read of an input and how much of it.
struct ReadOptions {
    /// Of files: where there are some, controls are the bones whose names match one of them, and no others, whatever the file
    /// says. `*` stands for any text, `?` for one character, `[a-z]` for one of some (POSIX shell patterns).
    std::vector<std::string> controls = {};
    std::size_t file_limit = std::size_t{1} << 30U;  ///< largest file in bytes, buffers of a glTF file each for itself
    std::size_t value_limit = 50'000'000;            ///< most values (lists, objects, scalars) of a rig description
    /// Most values of the JSON of a glTF file: these are all held at once.
    std::size_t gltf_value_limit = 20'000'000;
    /// Most entries of vertex weights read of a glTF file. More come of accessors that lie over each other, where a small file
    /// could take hours; a buffer of 1 GiB has less.
    std::size_t influence_limit = std::size_t{1} << 28U;
};

/// Reads a rig description (format version 1) from its whole text in one pass. All faults are found in one run; where the JSON
/// itself breaks off, names are not resolved, since they might stand in the part that was not read.
ReadResult read_rig(std::string_view text, const ReadOptions& options = {});

/// Reads glTF 2.0 (ISO/IEC 12113:2022), as JSON or as GLB, with the rig that it carries: nodes are bones, joints that vertices
/// are weighted to are deform bones, and VRM 1.0 and 0.x say what is constrained, swings and is posed. `path` names the file:
/// buffers are looked for in its folder and nowhere above it (empty or "-": they are not read), and it names a rig that has no
/// name.
ReadResult read_gltf(std::string_view content, const std::string& path, const ReadOptions& options = {});

/// Reads a file of any known format, or standard input when `path` is "-". A file that cannot be read is a fault at place 0:0.
ReadResult read_rig_file(const std::string& path, const ReadOptions& options = {});

/// The rig as a rig description: stable key order, defaults left out, ends with a newline. Reading it gives an equal rig but for
/// places.
std::string write_rig(const Rig& rig);

/// The JSON Schema (draft 2020-12) of the rig description, as published in src/read/rig_description.schema.json.
std::string_view rig_description_schema();

/// The known name nearest to `name` (edit distance with transpositions, at most a third of its length), or an empty string.
/// Ties go to the earlier one.
std::string nearest_name(std::string_view name, const std::vector<std::string_view>& known);

}  // namespace ligament
