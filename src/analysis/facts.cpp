// What is so, all in all? The facts that checks and reports read.
#include "ligament/facts.hpp"

namespace ligament {

Facts find_facts(const Rig& rig, const Dependencies& dependencies) {
    return {find_cycles(rig, dependencies), find_order(rig, dependencies), find_attachment(rig, dependencies, default_state(rig)),
            find_fan_out(rig, dependencies)};
}

}  // namespace ligament
