// What are the nodes and skins of a glTF file called, where names may be missing or equal?
#pragma once

#include "gltf.hpp"

namespace ligament {

/// Names that are all different, by index. A name that only one has stays as it is; those that several have, and missing ones,
/// get the index behind a number sign: "hand#7", "node#12". Where that is the name of another one, once more.
std::vector<std::string> unique_names(const std::vector<std::string_view>& names, std::string_view noun);

/// "node 3 "reed"", or "node 3" where it has no name.
std::string node_text(const Gltf& gltf, std::uint32_t node);

}  // namespace ligament
