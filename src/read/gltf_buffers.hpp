// What bytes does a buffer of a glTF file hold?
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "gltf.hpp"
#include "json_document.hpp"
#include "ligament/read.hpp"

namespace ligament {

/// A glTF file as values, and where its buffers are found.
struct GltfSource {
    const Gltf& gltf;
    const JsonDocument& json;
    std::optional<std::string_view> binary;  ///< of a GLB file
    const std::string& folder;               ///< empty: no files are read
    const ReadOptions& options;
};

/// Place of a value of the JSON, 0:0 for none.
Place place_of(const GltfSource& source, std::uint32_t item);

/// Why numbers cannot be read.
struct Obstacle {
    std::string reason;
    std::uint32_t item = none;        ///< of the JSON, that it is about
    bool is_standard_broken = false;  ///< rather than something absent or compressed
};

/// Buffers, each read when it is first asked for and then kept. Buffers of one file share its bytes.
class GltfBuffers {
  public:
    explicit GltfBuffers(const GltfSource& source) : source_(source), buffers_(source.gltf.buffers.size()) {}

    /// The bytes of a buffer, no more than its length says; fewer are told in `remarks`, once. Nothing where it cannot be had,
    /// and why is added to `obstacles`.
    std::optional<std::string_view> find(GltfIndex buffer, std::vector<Obstacle>& obstacles, Remarks& remarks);

  private:
    struct Loaded {
        bool is_loaded = false;
        std::optional<std::string_view> bytes;
        Obstacle obstacle;
    };
    Loaded load(std::uint32_t index, Remarks& remarks);
    std::string load_file(std::string_view uri, std::string_view& bytes);

    const GltfSource& source_;
    std::vector<Loaded> buffers_;
    std::vector<std::unique_ptr<std::string>> decoded_;
    std::unordered_map<std::string, std::unique_ptr<std::string>> files_;  // by absolute path
};

}  // namespace ligament
