// How does a whole rig travel in a glTF 2.0 file?
#pragma once

#include <string>

#include "ligament/rig.hpp"

namespace heron {

/// The rig as a glTF 2.0 file without meshes: reading it gives the rig again.
std::string write_gltf(const ligament::Rig& rig);

}  // namespace heron
