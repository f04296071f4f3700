#include "glb.hpp"

#include <algorithm>
#include <string>

namespace ligament {

namespace {

// Section 4.4: magic, version and length; then chunks of length, type and data. All numbers are little-endian.
constexpr std::uint64_t header_size = 12;
constexpr std::uint64_t chunk_header_size = 8;
constexpr std::uint32_t magic = 0x46546C67;
constexpr std::uint32_t json_chunk = 0x4E4F534A;
constexpr std::uint32_t binary_chunk = 0x004E4942;

std::uint32_t number_at(std::string_view content, std::uint64_t at) {
    std::uint32_t number = 0;
    for (unsigned i = 4; i-- > 0;) number = number << 8U | static_cast<unsigned char>(content[at + i]);
    return number;
}

std::string hex(std::uint32_t number) {
    std::string text = "0x";
    for (unsigned shift = 32; shift > 0;) text += "0123456789ABCDEF"[number >> (shift -= 4) & 15U];
    return text;
}

std::string bytes(std::uint64_t count) { return std::to_string(count) + (count == 1 ? " byte" : " bytes"); }

// Something that may be so for every chunk of a long file; told once.
struct Often {
    std::string first = {};
    std::uint64_t more = 0;

    void add(std::string message) {
        if (first.empty())
            first = std::move(message);
        else
            ++more;
    }
    void tell(Remarks& remarks) const {
        if (first.empty()) return;
        const std::string rest = more == 0 ? "" : ", and so with " + std::to_string(more) + " more";
        remarks.push_back({Remark::Kind::standard_broken, first + rest, {}, {0, 0}});
    }
};

struct Chunk {
    std::uint64_t position = 0;  // counts the chunks before it
    std::uint32_t type = 0;
    std::string_view data;

    std::string name() const {
        return "chunk " + std::to_string(position) +
               (type == json_chunk     ? " (JSON)"
                : type == binary_chunk ? " (BIN)"
                                       : " (" + hex(type) + ")");
    }
};

struct Splitter {
    std::string_view content;  // as far as the header says that it reaches
    FaultList& faults;
    Remarks& remarks;
    GlbParts parts = {};
    bool has_json = false;
    Often unaligned = {}, repeated = {};

    void fault(std::string message) { faults.add({{0, 0}, std::move(message), {}}); }
    void remark(std::string message) { remarks.push_back({Remark::Kind::standard_broken, std::move(message), {}, {0, 0}}); }

    void take(const Chunk& chunk) {
        if (chunk.position == 0 && chunk.type != json_chunk)
            fault("the first chunk of a GLB file is of type " + hex(json_chunk) + " (JSON), here it is of type " +
                  hex(chunk.type));
        if (chunk.data.size() % 4 != 0)
            unaligned.add("the length of " + chunk.name() + ", " + bytes(chunk.data.size()) + ", is no multiple of 4");
        if (chunk.type == json_chunk) {
            if (has_json)
                repeated.add(chunk.name() + " is not read, a GLB file has one JSON chunk");
            else
                parts.json = chunk.data;
            has_json = true;
        } else if (chunk.type == binary_chunk) {
            if (parts.binary) {
                repeated.add(chunk.name() + " is not read, a GLB file has at most one BIN chunk");
                return;
            }
            if (chunk.position > 1)
                remark("the BIN chunk of a GLB file is chunk 1, here it is chunk " + std::to_string(chunk.position));
            parts.binary = chunk.data;
        }
    }

    void split() {
        std::uint64_t at = header_size;
        std::uint64_t position = 0;
        for (; content.size() - at >= chunk_header_size; ++position) {
            const std::uint64_t length = number_at(content, at);
            Chunk chunk{position, number_at(content, at + 4), {}};
            at += chunk_header_size;
            if (length > content.size() - at)
                return fault(chunk.name() + " states a length of " + bytes(length) + ", behind its header are " +
                             bytes(content.size() - at));
            chunk.data = content.substr(at, length);
            at += length;
            take(chunk);
        }
        if (position == 0)
            fault("a GLB file has a JSON chunk, whose header alone has 8 bytes; behind the header of this file are " +
                  bytes(content.size() - at));
        else if (at < content.size())
            remark("behind the last chunk of the GLB file are " + bytes(content.size() - at) + ", too few for another chunk");
    }
};

// Tells what is wrong with the version; true where chunks can be looked for.
bool is_version_read(std::uint32_t version, FaultList& faults) {
    if (version == 2) return true;
    faults.add({{0, 0},
                version == 1 ? "the GLB file has version 1, which holds glTF 1.0; read is version 2, glTF 2.0"
                             : "the GLB file has version " + std::to_string(version) + ", read is version 2",
                {}});
    return false;
}

}  // namespace

GlbParts split_glb(std::string_view content, FaultList& faults, Remarks& remarks) {
    Splitter splitter{content, faults, remarks};
    if (content.size() >= 4 && number_at(content, 0) != magic)
        splitter.fault("a GLB file begins with " + hex(magic) + ", this one with " + hex(number_at(content, 0)));
    if (content.size() < header_size) {
        splitter.fault("the header of a GLB file has 12 bytes, this file has " + bytes(content.size()));
        return {};
    }
    const std::uint32_t version = number_at(content, 4);
    const std::uint64_t length = number_at(content, 8);
    const bool is_read = is_version_read(version, faults);
    // Version 1 has its length in the same place; nothing is known of others.
    if (version > 2 || version == 0) return {};
    if (length < header_size)
        splitter.fault("the GLB header states a length of " + bytes(length) + ", it alone has 12 bytes");
    else if (length > content.size())
        splitter.fault("the GLB header states a length of " + bytes(length) + ", the file has " + bytes(content.size()));
    else if (length < content.size())
        splitter.remark("the GLB header states a length of " + bytes(length) + ", the file has " + bytes(content.size()));
    if (!is_read) return {};
    if (length >= header_size) splitter.content = content.substr(0, std::min<std::uint64_t>(length, content.size()));
    splitter.split();
    splitter.unaligned.tell(remarks);
    splitter.repeated.tell(remarks);
    return splitter.parts;
}

}  // namespace ligament
