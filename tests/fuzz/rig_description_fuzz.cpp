// Does the reader of rig descriptions survive any text? A rig or faults, never both; what is read can be written and read again.
#include <cstdlib>

#include "ligament/read.hpp"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const ligament::ReadResult result = ligament::read_rig({reinterpret_cast<const char*>(data), size});
    if (result.rig.has_value() != result.faults.empty()) std::abort();
    for (std::size_t i = 1; i < result.faults.size(); ++i) {
        const ligament::Place a = result.faults[i - 1].place, b = result.faults[i].place;
        if (a.line > b.line || (a.line == b.line && a.column > b.column)) std::abort();
    }
    if (!result.rig) return 0;
    const std::string text = ligament::write_rig(*result.rig);
    const ligament::ReadResult again = ligament::read_rig(text);
    if (!again.rig || ligament::write_rig(*again.rig) != text) std::abort();
    return 0;
}
