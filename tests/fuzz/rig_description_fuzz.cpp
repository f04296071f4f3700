// Does the reader of rig descriptions survive any text?
#include "read_again.hpp"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    ligament::fuzz::expect_rig_or_faults(ligament::read_rig({reinterpret_cast<const char*>(data), size}));
    return 0;
}
