#include "gltf_buffers.hpp"

#include "uri.hpp"
#include "whole_file.hpp"

namespace ligament {

void GltfBuffers::load(std::uint32_t index, Buffer& buffer) {
    const std::optional<std::string_view> uri = source_.gltf.buffers[index].uri;
    if (!uri) {
        if (index == 0 && source_.binary)
            buffer.content = source_.binary;
        else
            buffer.reason = "it has no URI";
        return;
    }
    FromUri found = is_data_uri(*uri) ? decode_data_uri(*uri) : find_file(*uri, source_.folder);
    if (!found.value) {
        buffer.reason = std::move(found.reason);
        return;
    }
    if (is_data_uri(*uri)) {
        buffer.bytes = *std::move(found.value);
    } else {
        buffer.reason = read_whole_file(*found.value, source_.options.file_limit, buffer.bytes);
        if (!buffer.reason.empty()) return;
    }
    buffer.content = buffer.bytes;
}

std::optional<std::string_view> GltfBuffers::view(std::uint32_t view, std::string& reason) {
    const GltfView& wanted = source_.gltf.views[view];
    if (wanted.is_compressed) {
        reason = "buffer view " + std::to_string(view) + " is compressed";
        return std::nullopt;
    }
    if (!wanted.buffer.is_given()) {
        reason = "buffer view " + std::to_string(view) + " has no buffer";
        return std::nullopt;
    }
    Buffer& buffer = buffers_[wanted.buffer.to];
    if (!std::exchange(buffer.is_loaded, true)) load(wanted.buffer.to, buffer);
    if (!buffer.content) {
        reason = "buffer " + std::to_string(wanted.buffer.to) + " is missing: " + buffer.reason;
        return std::nullopt;
    }
    const std::size_t size = buffer.content->size();
    if (wanted.offset > size || wanted.length > size - wanted.offset) {
        reason = "buffer view " + std::to_string(view) + " ends at byte " + std::to_string(wanted.offset + wanted.length) +
                 " of buffer " + std::to_string(wanted.buffer.to) + ", which has " + std::to_string(size);
        return std::nullopt;
    }
    return buffer.content->substr(wanted.offset, wanted.length);
}

}  // namespace ligament
