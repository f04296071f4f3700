// How wide and how colourful may text be?
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "ligament/report.hpp"
#include "output.hpp"

namespace ligament::cli {

/// Adds --colour to a command that prints text.
void add_colour_option(CLI::App& app, std::string& colour);

/// Width: that of the terminal, else COLUMNS, else 80. Colour "auto": only on a terminal that is not dumb, and only when NO_COLOR
/// is not set to something (no-color.org).
TextStyle style_for(const Output& output, const std::string& colour);

/// Bold where colour is allowed.
std::string heading(const std::string& text, const TextStyle& style);

}  // namespace ligament::cli
