#include "gltf_buffers.hpp"

#include "draft.hpp"
#include "ligament/whole_file.hpp"
#include "uri.hpp"

namespace ligament {

Place place_of(const GltfSource& source, std::uint32_t item) {
    return item < source.json.items.size() ? source.json[item].place : Place();
}

std::optional<std::string_view> GltfBuffers::find(GltfIndex buffer, std::vector<Obstacle>& obstacles, Remarks& remarks) {
    if (buffer.to >= buffers_.size()) {
        obstacles.push_back(
            {"there is no buffer " + std::to_string(buffer.to) + ", the file has " + std::to_string(buffers_.size()), buffer.item,
             true});
        return std::nullopt;
    }
    Loaded& loaded = buffers_[buffer.to];
    if (!loaded.is_loaded) loaded = load(buffer.to, remarks);
    if (!loaded.bytes) obstacles.push_back(loaded.obstacle);
    return loaded.bytes;
}

GltfBuffers::Loaded GltfBuffers::load(std::uint32_t index, Remarks& remarks) {
    const GltfBuffer& buffer = source_.gltf.buffers[index];
    const std::string name = "buffer " + std::to_string(index);
    std::string_view bytes;
    std::string reason;
    bool is_standard_broken = false;
    if (!buffer.uri) {
        // Section 3.6.1.2: the first buffer, without a URI, is the BIN chunk.
        if (index != 0 || !source_.binary)
            reason = name + (index == 0 ? " has no URI, and there is no BIN chunk" : " has no URI");
        else
            bytes = *source_.binary;
    } else if (is_data_uri(*buffer.uri)) {
        std::string& decoded = *decoded_.emplace_back(std::make_unique<std::string>());
        reason = decode_data_uri(*buffer.uri, decoded);
        is_standard_broken = !reason.empty();
        if (!reason.empty()) reason = "the data URI of " + name + ": " + reason;
        bytes = decoded;
    } else {
        reason = load_file(*buffer.uri, bytes);
        if (!reason.empty()) reason = "the URI " + in_quotes(*buffer.uri) + " of " + name + ": " + reason;
    }
    if (!reason.empty()) return {true, std::nullopt, {reason, buffer.item, is_standard_broken}};
    if (bytes.size() < buffer.length)
        remarks.push_back(
            {Remark::Kind::standard_broken,
             name + " has " + std::to_string(bytes.size()) + " bytes, its length says " + std::to_string(buffer.length),
             {},
             place_of(source_, buffer.item)});
    if (bytes.size() > buffer.length) bytes = bytes.substr(0, buffer.length);
    return {true, bytes, {}};
}

std::string GltfBuffers::load_file(std::string_view uri, std::string_view& bytes) {
    std::string path;
    if (std::string reason = find_file_of_uri(uri, source_.folder, path); !reason.empty()) return reason;
    std::unique_ptr<std::string>& content = files_[path];
    if (!content) {
        auto read = std::make_unique<std::string>();
        if (std::string reason = read_whole_file(path, source_.options.file_limit, *read); !reason.empty()) return reason;
        content = std::move(read);
    }
    bytes = *content;
    return {};
}

}  // namespace ligament
