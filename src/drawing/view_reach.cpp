// Which controls move which deform bones, at which stop of which switch?
#include "views.hpp"

namespace ligament {

std::vector<Sheet> plan_of_reach(const Subject&, std::uint32_t, Room) { return {}; }

}  // namespace ligament
