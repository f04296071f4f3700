// What do the shapes and lines of this picture mean?
#pragma once

#include "scene.hpp"

namespace ligament {

/// Explains what occurs on the sheet and nothing else, in rows no wider than `width` where an entry allows it. Empty where there
/// is nothing to explain.
Scene draw_legend(const Sheet& sheet, double width);

}  // namespace ligament
