// Which bones are controls because the caller says so?
#pragma once

#include "ligament/read.hpp"

namespace ligament {

/// Takes as controls the bones that `patterns` name, and no others; does nothing where there are no patterns. A pattern that
/// names no bone is a fault, and then there is no rig.
void choose_controls(ReadResult& result, const std::vector<std::string>& patterns);

}  // namespace ligament
