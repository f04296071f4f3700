// Which bytes do the buffers of a glTF file hold?
#pragma once

#include "gltf.hpp"
#include "ligament/read.hpp"

namespace ligament {

/// Where a glTF file's numbers may come from.
struct GltfSource {
    const Gltf& gltf;
    const JsonDocument& json;
    std::optional<std::string_view> binary;  ///< of a GLB
    const std::string& folder;               ///< empty: there is none
    const ReadOptions& options;
};

/// Loads buffers when they are first asked for, each once.
class GltfBuffers {
  public:
    explicit GltfBuffers(const GltfSource& source) : source_(source), buffers_(source.gltf.buffers.size()) {}

    /// The bytes of a view, or nothing, with the reason, where buffer or view are missing, refused or too short.
    std::optional<std::string_view> view(std::uint32_t view, std::string& reason);

  private:
    struct Buffer {
        bool is_loaded = false;
        std::string bytes;  // where they had to be made
        std::optional<std::string_view> content;
        std::string reason;
    };
    void load(std::uint32_t index, Buffer& buffer);

    const GltfSource& source_;
    std::vector<Buffer> buffers_;
};

}  // namespace ligament
