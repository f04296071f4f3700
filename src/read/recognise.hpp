// Is an input glTF or a rig description?
#pragma once

#include "formats.hpp"

namespace ligament {

/// Told by the file's ending (.gltf .glb .vrm, .rig.json for a rig description), else by content: the first bytes of a GLB, or
/// the key "asset" in the outermost object, which every glTF must have, of a text that does not begin with the key "format".
bool is_gltf(const InputText& input);

}  // namespace ligament
