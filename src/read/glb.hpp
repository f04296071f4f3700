// What is in a GLB container?
#pragma once

#include <optional>
#include <string_view>

#include "fault_list.hpp"
#include "gltf.hpp"

namespace ligament {

/// Views into the content.
struct GlbParts {
    std::string_view json;
    std::optional<std::string_view> binary;  ///< the chunk that the first buffer without a URI means
};

/// Takes a GLB apart (ISO/IEC 12113:2022, section 4). Lengths that its headers state are compared with what is there before they
/// are used; those that lie are faults, without a place. Unknown chunks are skipped.
GlbParts split_glb(std::string_view content, FaultList& faults, Remarks& remarks);

}  // namespace ligament
