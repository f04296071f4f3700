// Does the reader survive any GLB file? Bytes that begin like one are read as they are. Others are the JSON, up to a first NUL,
// and the numbers behind it: with headers that are right, so that what lies inside is reached too.
#include <algorithm>

#include "read_again.hpp"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size);

namespace {

void append_number(std::string& bytes, std::size_t number) {
    for (unsigned shift = 0; shift < 32; shift += 8) bytes += static_cast<char>(number >> shift & 0xFFU);
}

void append_chunk(std::string& bytes, std::string data, std::size_t type, char padding) {
    data.resize((data.size() + 3) / 4 * 4, padding);
    append_number(bytes, data.size());
    append_number(bytes, type);
    bytes += data;
}

std::string container_of(std::string_view input) {
    const std::size_t end = std::min(input.find('\0'), input.size());
    std::string chunks;
    append_chunk(chunks, std::string(input.substr(0, end)), 0x4E4F534A, ' ');
    append_chunk(chunks, std::string(input.substr(std::min(end + 1, input.size()))), 0x004E4942, '\0');
    std::string bytes = "glTF";
    append_number(bytes, 2);
    append_number(bytes, 12 + chunks.size());
    return bytes + chunks;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const std::string_view input{reinterpret_cast<const char*>(data), size};
    if (input.starts_with("glTF"))
        ligament::fuzz::expect_rig_or_faults(ligament::read_gltf(input, ""));
    else
        ligament::fuzz::expect_rig_or_faults(ligament::read_gltf(container_of(input), ""));
    return 0;
}
