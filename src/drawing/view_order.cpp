// What is computed when?
#include "views.hpp"

namespace ligament {

std::vector<Sheet> plan_of_order(const Subject&, std::uint32_t, Room) { return {}; }

}  // namespace ligament
