// Does the reader of glTF and VRM survive any text? What is JSON and what it holds, nlohmann/json says too.
#include "json_agreement.hpp"
#include "read_again.hpp"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const std::string_view text{reinterpret_cast<const char*>(data), size};
    if (!ligament::testing::json_disagreement(text).empty()) std::abort();
    ligament::fuzz::expect_rig_or_faults(ligament::read_gltf(text, ""));
    return 0;
}
