#include "ligament/drawing.hpp"
#include <stdexcept>
namespace ligament {
Drawing draw(const Rig&, const Dependencies&, const Facts&, const DrawingOptions&) { throw std::logic_error("not yet"); }
}
