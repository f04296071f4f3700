#include "glb.hpp"

#include <string>

namespace ligament {

namespace {

constexpr std::size_t header_size = 12, chunk_header_size = 8;
constexpr std::uint32_t json_type = 0x4E4F534A, binary_type = 0x004E4942;

std::uint32_t number_at(std::string_view content, std::size_t at) {
    std::uint32_t number = 0;
    for (std::size_t i = 4; i-- > 0;) number = number << 8U | static_cast<unsigned char>(content[at + i]);
    return number;
}

// Takes the chunks apart as they come.
struct Chunks {
    FaultList& faults;
    Remarks& remarks;
    GlbParts parts;
    std::size_t count = 0;

    void fault(std::string message) { faults.add({{0, 0}, std::move(message), {}}); }
    void remark(std::string message) { remarks.push_back({Remark::Kind::standard_broken, std::move(message), {}, {1, 1}, {}}); }

    void take(std::uint32_t type, std::string_view data) {
        const std::size_t number = count++;
        if (data.size() % 4 != 0)
            remark("chunk " + std::to_string(number) + " of the GLB is " + std::to_string(data.size()) +
                   " bytes long, which is no multiple of 4");
        if (number == 0 && type == json_type)
            parts.json = data;
        else if (number == 0)
            fault("the first chunk of a GLB is its JSON, found another one");
        else if (type == json_type)
            remark("the GLB has a second chunk of JSON, which is not read");
        else if (type == binary_type && !parts.binary)
            parts.binary = data;
        else if (type == binary_type)
            remark("the GLB has a second chunk of numbers, which is not read");
        if (type == binary_type && number > 1) remark("the chunk of numbers of a GLB is its second one");
    }
};

}  // namespace

GlbParts split_glb(std::string_view content, FaultList& faults, Remarks& remarks) {
    Chunks chunks{faults, remarks, {}};
    if (content.size() < header_size) {
        chunks.fault("a GLB begins with " + std::to_string(header_size) + " bytes, found " + std::to_string(content.size()));
        return {};
    }
    if (const std::uint32_t version = number_at(content, 4); version != 2) {
        chunks.fault("GLB version " + std::to_string(version) + " is not read, only 2");
        return {};
    }
    const std::size_t length = number_at(content, 8);
    if (length > content.size())
        chunks.fault("the GLB says that it is " + std::to_string(length) + " bytes long, found " +
                     std::to_string(content.size()));
    if (length < content.size())
        chunks.remark("the GLB says that it is " + std::to_string(length) + " bytes long, found " +
                      std::to_string(content.size()));
    content = content.substr(0, length);
    for (std::size_t at = header_size; at < content.size();) {
        const std::string which = "chunk " + std::to_string(chunks.count) + " of the GLB";
        if (content.size() - at < chunk_header_size) {
            chunks.fault(which + " begins with " + std::to_string(chunk_header_size) + " bytes, found " +
                         std::to_string(content.size() - at));
            break;
        }
        const std::size_t size = number_at(content, at);
        const std::uint32_t type = number_at(content, at + 4);
        at += chunk_header_size;
        if (size > content.size() - at) {
            chunks.fault(which + " says that it is " + std::to_string(size) + " bytes long, found " +
                         std::to_string(content.size() - at));
            break;
        }
        chunks.take(type, content.substr(at, size));
        at += size;
    }
    if (chunks.count == 0 && faults.empty()) chunks.fault("the GLB has no chunks");
    return chunks.parts;
}

}  // namespace ligament
