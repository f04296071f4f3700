#include "ligament/checks.hpp"
#include <stdexcept>
namespace ligament {
std::span<const Check> all_checks() { return {}; }
std::vector<Finding> find_findings(const Rig&, const Dependencies&, const Facts&) { throw std::logic_error("not yet"); }
}
