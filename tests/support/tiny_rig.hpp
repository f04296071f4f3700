// Tiny rigs from text, for tests that read like the rule they test.
#pragma once

#include <string>
#include <string_view>

#include "ligament/rig.hpp"

namespace ligament::testing {

/// The text of a rig description. `bones` is the inside of the list of bones; `rest` more keys of the rig, such as
/// "'properties': [...]". Single quotes stand for double quotes. Bones start on line 1 and the rest on a line of its own.
std::string rig_text(std::string_view bones, std::string_view rest = {});

/// Reads rig_text(bones, rest); throws std::runtime_error with the faults when there are any.
Rig tiny_rig(std::string_view bones, std::string_view rest = {});

}  // namespace ligament::testing
