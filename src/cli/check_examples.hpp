// What does a rig look like in which a check finds something?
#pragma once

#include <string_view>
#include <utility>

namespace ligament::cli {

/// The text of a file in examples/checks, such as "cycle.bad.rig.json"; empty where there is none.
std::string_view check_example(std::string_view name);

}  // namespace ligament::cli
