#include "ligament/report.hpp"
#include <stdexcept>
namespace ligament {
void write_json(std::ostream&, const Report&) { throw std::logic_error("not yet"); }
void write_text(std::ostream&, const Report&, const TextStyle&) { throw std::logic_error("not yet"); }
}
