#include "ligament/graph.hpp"
#include <stdexcept>
namespace ligament {
Dependencies build_dependencies(const Rig&) { throw std::logic_error("not yet"); }
}
