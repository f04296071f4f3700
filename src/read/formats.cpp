// Which input formats are there?
#include "formats.hpp"

#include <array>
#include <filesystem>

#include "recognise.hpp"

namespace ligament {

namespace {

std::string folder_of(const InputText& input) {
    if (input.path == "-") return {};
    const std::string folder = std::filesystem::path(input.path).parent_path().string();
    return folder.empty() ? "." : folder;
}

}  // namespace

std::span<const Format> all_formats() {
    static constexpr std::array<Format, 2> formats{
        {{"glTF 2.0, VRM", is_gltf,
          [](const InputText& input, const ReadOptions& options) { return read_gltf(input.content, folder_of(input), options); }},
         {"rig description", [](const InputText&) { return true; },
          [](const InputText& input, const ReadOptions& options) { return read_rig(input.content, options); }}}};
    return formats;
}

}  // namespace ligament
