// Which input formats are there?
#include "formats.hpp"

#include <array>

#include "recognise.hpp"

namespace ligament {

std::span<const Format> all_formats() {
    static constexpr std::array<Format, 2> formats{
        {{"glTF 2.0, VRM", is_gltf,
          [](const InputText& input, const ReadOptions& options) {
              return read_gltf(input.content, std::string(input.path), options);
          }},
         {"rig description", [](const InputText&) { return true; },
          [](const InputText& input, const ReadOptions& options) { return read_rig(input.content, options); }}}};
    return formats;
}

}  // namespace ligament
