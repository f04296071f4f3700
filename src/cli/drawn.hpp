// What is to be said of a drawing that was made, or was not?
#pragma once

#include <string>

#include "ligament/drawing.hpp"

namespace ligament::cli {

/// Throws where there is no drawing: Unusable for want of memory, else a fault of the program's own.
void expect_drawn(const std::string& path, const Drawing& drawing);

/// Tells standard error what the reader of the drawing should know.
void print_notice(const std::string& path, const Drawing& drawing);

}  // namespace ligament::cli
