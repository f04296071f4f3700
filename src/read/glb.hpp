// Where in a GLB file are the JSON and the binary buffer?
#pragma once

#include <optional>
#include <string_view>

#include "fault_list.hpp"
#include "gltf.hpp"

namespace ligament {

/// Chunks of a GLB file, as views into it.
struct GlbParts {
    std::string_view json;
    std::optional<std::string_view> binary;
};

/// Takes the container apart (glTF 2.0, section 4). Lengths that lie and versions other than 2 are faults at place 0:0, all of
/// them; what breaks the standard but leaves the parts clear is a remark. Copies nothing; linear in the number of chunks.
GlbParts split_glb(std::string_view content, FaultList& faults, Remarks& remarks);

}  // namespace ligament
