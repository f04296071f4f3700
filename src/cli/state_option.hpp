// In which state is the rig looked at? The option --state of all commands that read a rig.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "ligament/facts.hpp"

namespace ligament::cli {

/// Adds --state to a command; it may be repeated.
void add_state_option(CLI::App& app, std::vector<std::string>& settings);

/// The facts wanted: of the state that these settings make of the default one, named as reports name states; of the default state
/// where there are none. A setting is PROPERTY=STOP or PROPERTY=NUMBER, of an undriven property, within its min and max. Throws
/// Unusable, naming all that is wrong with them.
FactOptions read_state(const Rig& rig, const std::string& path, const std::vector<std::string>& settings);

/// " in state wing_mode_l=fk", printable; nothing for the default state.
std::string in_state_words(const FactOptions& options);

/// The dependencies as they are, or in the state that was asked for; `overrides` as in dependencies_in.
Dependencies dependencies_for(const Rig& rig, const FactOptions& options, bool overrides);

/// What is drawn of a state: what is replaced there is switched off, too. On the bones of cycles it is kept: a host computes it
/// all the same, and a loop that is drawn has to close.
Dependencies dependencies_to_draw(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const State& state);

}  // namespace ligament::cli
