// Tiny glTF files from text, and what is read of them as lines to compare.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/read.hpp"

namespace ligament::testing {

/// The text of a glTF 2.0 file: `rest` is the inside of its outermost object behind "asset". Single quotes stand for double ones.
std::string gltf_text(std::string_view rest);

/// Meshes with their buffer, views and accessors, as part of gltf_text. One vertex for each of the given places in the joints of
/// a skin, wholly weighted to it.
std::string weighted_meshes(const std::vector<std::vector<std::uint8_t>>& meshes);

/// Reads gltf_text(rest); throws std::runtime_error with the faults when there are any.
Rig gltf_rig(std::string_view rest);

/// The faults of gltf_text(rest), "pointer: message" a line.
std::string gltf_faults(std::string_view rest);

/// The remarks of a rig, "pointer: kind: message [bones]" a line, the kind as "broken", "weights", "joint" or "extension".
std::string dump_remarks(const Rig& rig);
std::string gltf_remarks(std::string_view rest);

/// "name role < parent (group)" a bone, a line each; without what a bone has not.
std::string dump_bones(const Rig& rig);

/// "owner: name kind space axis weight | reads > writes "label" <- sources" a constraint, a line each; the space only where it is
/// final, the weight only where it is not 1, channels and label only of custom ones.
std::string dump_constraints(const Rig& rig);

}  // namespace ligament::testing
