// What does one property drive, gate and move?
#include "views.hpp"

namespace ligament {

std::vector<std::uint32_t> switches_to_draw(const Subject&) { return {}; }
std::vector<Sheet> plan_of_switch(const Subject&, std::uint32_t, Room) { return {}; }

}  // namespace ligament
