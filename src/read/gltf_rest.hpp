// Where does a glTF node stand at rest?
#pragma once

#include "gltf_taker.hpp"

namespace ligament {

/// The rest transform of a node from its translation, rotation and scale, or from its matrix (column-major; section 3.5.2 of the
/// standard), which is taken apart. What a matrix has of shear is lost, and remarked upon.
Rest take_gltf_rest(const GltfTaker& taker, std::uint32_t node);

}  // namespace ligament
