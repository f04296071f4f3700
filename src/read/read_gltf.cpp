#include "ligament/read.hpp"
namespace ligament {
ReadResult read_gltf(std::string_view, const std::string&, const ReadOptions&) { return {}; }
}  // namespace ligament
