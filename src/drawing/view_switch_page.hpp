// Where does what a property drives and moves stand on its pages?
#pragma once

#include <vector>

#include "view_switch_rows.hpp"

namespace ligament {

/// All sheets of one property, without titles.
std::vector<Sheet> draw_switch_pages(const Subject& subject, const SwitchPlan& plan, Room room);

}  // namespace ligament
