// What do the lists of a glTF file hold?
#pragma once

#include "gltf_taker.hpp"

namespace ligament {

/// Takes apart the outermost object. Nodes, skins and targets of animations must be as the standard wants them, or there
/// are faults; of scenes, names, meshes and what lies behind these a remark is made.
Gltf take_gltf_parts(const GltfTaker& taker);

}  // namespace ligament
