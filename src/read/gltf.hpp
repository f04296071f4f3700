// What does a glTF 2.0 file hold that matters to a rig? Nodes, skins, meshes and where their numbers lie, as plain values that
// refer to each other by index, as the file does.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "json_document.hpp"
#include "ligament/rig.hpp"

namespace ligament {

/// An index into another list of the file, and the value of the JSON that holds it.
struct GltfIndex {
    std::uint32_t to = none;
    std::uint32_t item = none;  ///< index into JsonDocument::items

    bool is_given() const { return to != none; }
};

struct GltfNode {
    std::uint32_t item = none;
    std::string_view name;  ///< empty when not given
    std::vector<GltfIndex> children;
    GltfIndex mesh, skin;
    Rest rest;
    std::uint32_t extensions = none;  ///< items of the JSON; none when not given
    std::uint32_t carried = none;     ///< extras.rig
};

struct GltfSkin {
    std::uint32_t item = none;
    std::string_view name;
    std::vector<GltfIndex> joints;
    GltfIndex skeleton;
};

/// One JOINTS_n with its WEIGHTS_n: accessors of four joints (places in GltfSkin::joints) and four weights a vertex.
struct GltfInfluences {
    std::uint32_t set = 0;  ///< n
    GltfIndex joints, weights;
};

struct GltfPrimitive {
    std::uint32_t item = none;
    std::vector<GltfInfluences> influences;
    bool is_compressed = false;  ///< an extension holds the numbers in a way of its own
};

struct GltfMesh {
    std::vector<GltfPrimitive> primitives;
};

/// Component types as the standard numbers them.
enum class GltfComponent : std::uint32_t { i8 = 5120, u8 = 5121, i16 = 5122, u16 = 5123, u32 = 5125, f32 = 5126 };

/// Entries of an accessor that stand apart from the rest.
struct GltfSparse {
    std::uint64_t count = 0;
    GltfIndex indices_view, values_view;
    std::uint64_t indices_offset = 0, values_offset = 0;
    std::uint32_t indices_component = 0;
};

struct GltfAccessor {
    std::uint32_t item = none;
    GltfIndex view;  ///< not given: all zeros, but for sparse entries
    std::uint64_t offset = 0, count = 0;
    std::uint32_t component = 0;  ///< a GltfComponent, if it is one
    std::string_view type;        ///< "SCALAR", "VEC4", ...
    bool normalized = false;
    std::optional<GltfSparse> sparse;
};

struct GltfView {
    std::uint32_t item = none;
    GltfIndex buffer;
    std::uint64_t offset = 0, length = 0;
    std::uint64_t stride = 0;  ///< 0: tightly packed
    bool is_compressed = false;
};

struct GltfBuffer {
    std::uint32_t item = none;
    std::optional<std::string_view> uri;  ///< the first buffer of a GLB has none
    std::uint64_t length = 0;
};

/// One channel of an animation: which node it targets and what of it.
struct GltfTarget {
    GltfIndex node;
    std::string_view path;  ///< "translation", "rotation", "scale", "weights", or what an extension has
};

struct GltfScene {
    std::uint32_t item = none;
    std::string_view name;
    std::vector<GltfIndex> nodes;
};

struct Gltf {
    std::vector<GltfNode> nodes;
    std::vector<GltfSkin> skins;
    std::vector<GltfMesh> meshes;
    std::vector<GltfAccessor> accessors;
    std::vector<GltfView> views;
    std::vector<GltfBuffer> buffers;
    std::vector<GltfTarget> targets;
    std::vector<GltfScene> scenes;
    GltfIndex scene;  ///< the one to show first
    std::vector<std::string_view> extensions_used, extensions_required;
    std::uint32_t extensions = none;  ///< items of the JSON: of the outermost object
    std::uint32_t carried = none;     ///< extras.rig of the outermost object
};

/// What is wrong while the rig can be read all the same. Bones are nodes.
using Remarks = std::vector<Remark>;

}  // namespace ligament
