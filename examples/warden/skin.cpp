// What does the skin of the marsh warden look like? Boxes, as numbers in a buffer of a glTF 2.0 file.
#include <algorithm>
#include <bit>
#include <cstdint>

#include "warden.hpp"

namespace warden {

namespace {

// The numbers of glTF 2.0, which takes them from WebGL.
enum Component { u8 = 5121, u16 = 5123, f32 = 5126 };
enum Target { no_target = 0, vertices = 34962, indices = 34963 };

void append(std::string& bytes, std::uint32_t number, int width) {
    for (int i = 0; i < width; ++i) bytes += static_cast<char>(number >> (8 * i) & 0xFFU);
}

void append(std::string& bytes, double number) { append(bytes, std::bit_cast<std::uint32_t>(static_cast<float>(number)), 4); }

/// Appends a view of its own and an accessor to it. All views begin at a multiple of 4.
Json& add_accessor(Skin& skin, const std::string& bytes, Component component, const char* type, std::size_t count,
                   Target target) {
    Json view{{"buffer", 0}, {"byteOffset", skin.bytes.size()}, {"byteLength", bytes.size()}};
    if (target != no_target) view["target"] = static_cast<int>(target);
    skin.views.push_back(view);
    skin.bytes += bytes;
    skin.bytes.resize((skin.bytes.size() + 3) / 4 * 4, '\0');
    skin.accessors.push_back({{"bufferView", skin.views.size() - 1},
                              {"componentType", static_cast<int>(component)},
                              {"count", count},
                              {"type", type}});
    return skin.accessors.back();
}

struct Vertices {
    std::string positions, joints, weights, triangles;
    std::uint32_t count = 0, corners = 0;
    std::array<float, 3> low{1e9F, 1e9F, 1e9F}, high{-1e9F, -1e9F, -1e9F};
};

struct Box {
    Vec3 low, high;
    std::size_t along = 0;  ///< its longest axis
    bool is_near_low = true;
};

Box box_of(const Node& node) {
    Box box;
    Vec3 length{};
    for (std::size_t axis = 0; axis < 3; ++axis) {
        box.low[axis] = std::min(node.place[axis], node.end[axis]);
        box.high[axis] = std::max(node.place[axis], node.end[axis]);
        length[axis] = box.high[axis] - box.low[axis];
    }
    box.along = static_cast<std::size_t>(std::max_element(length.begin(), length.end()) - length.begin());
    box.is_near_low = node.place[box.along] == box.low[box.along];
    for (std::size_t axis = 0; axis < 3; ++axis)
        if (axis != box.along) {
            box.low[axis] -= node.thickness / 2;
            box.high[axis] += node.thickness / 2;
        }
    return box;
}

void add_corner(Vertices& vertices, const Box& box, std::uint32_t corner, std::uint32_t joint, std::uint32_t parent) {
    for (std::size_t axis = 0; axis < 3; ++axis) {
        const float at = static_cast<float>((corner >> axis & 1U) != 0 ? box.high[axis] : box.low[axis]);
        append(vertices.positions, static_cast<double>(at));
        vertices.low[axis] = std::min(vertices.low[axis], at);
        vertices.high[axis] = std::max(vertices.high[axis], at);
    }
    const bool is_near = (corner >> box.along & 1U) == (box.is_near_low ? 0U : 1U);
    const bool is_shared = is_near && joint != parent;
    append(vertices.joints, joint | (is_shared ? parent << 8U : 0U), 4);
    append(vertices.weights, is_shared ? 128U | 127U << 8U : 255U, 4);  // 255 is 1
}

/// Corner 0..7: bit 0 is x, bit 1 y, bit 2 z. Triangles turn counter-clockwise seen from outside.
void add_box(Vertices& vertices, const Box& box, std::uint32_t joint, std::uint32_t parent) {
    static constexpr std::uint32_t faces[6][4]{{0, 4, 6, 2}, {1, 3, 7, 5}, {0, 1, 5, 4},
                                               {2, 6, 7, 3}, {0, 2, 3, 1}, {4, 5, 7, 6}};
    for (const auto& face : faces)
        for (const std::uint32_t corner : {0U, 1U, 2U, 0U, 2U, 3U}) append(vertices.triangles, vertices.count + face[corner], 2);
    vertices.corners += 36;
    for (std::uint32_t corner = 0; corner < 8; ++corner) add_corner(vertices, box, corner, joint, parent);
    vertices.count += 8;
}

/// What takes a place in the world to a place as seen from the joint, column by column.
std::string inverse_bind_matrices(const Warden& warden, const std::vector<std::size_t>& joints) {
    std::string bytes;
    for (const std::size_t joint : joints)
        for (std::size_t i = 0; i < 16; ++i) append(bytes, i % 5 == 0 ? 1.0 : i >= 12 ? -warden.nodes[joint].place[i - 12] : 0.0);
    return bytes;
}

}  // namespace

Skin build_skin(const Warden& warden) {
    Skin skin;
    std::vector<std::uint32_t> joint_of(warden.nodes.size());
    for (std::size_t i = 0; i < warden.nodes.size(); ++i)
        if (warden.nodes[i].is_joint) {
            joint_of[i] = static_cast<std::uint32_t>(skin.joints.size());
            skin.joints.push_back(i);
        }
    Vertices vertices;
    for (const std::size_t joint : skin.joints) {
        const Node& node = warden.nodes[joint];
        if (node.thickness == 0) continue;
        const bool hangs = warden.nodes[node.parent].thickness > 0;
        add_box(vertices, box_of(node), joint_of[joint], joint_of[hangs ? node.parent : joint]);
    }
    Json& positions = add_accessor(skin, vertices.positions, f32, "VEC3", vertices.count, Target::vertices);
    positions["min"] = vertices.low;
    positions["max"] = vertices.high;
    add_accessor(skin, vertices.joints, u8, "VEC4", vertices.count, Target::vertices);
    add_accessor(skin, vertices.weights, u8, "VEC4", vertices.count, Target::vertices)["normalized"] = true;
    add_accessor(skin, vertices.triangles, u16, "SCALAR", vertices.corners, Target::indices);
    add_accessor(skin, inverse_bind_matrices(warden, skin.joints), f32, "MAT4", skin.joints.size(), no_target);
    skin.primitive = {{"attributes", {{"POSITION", 0}, {"JOINTS_0", 1}, {"WEIGHTS_0", 2}}}, {"indices", 3}, {"material", 0}};
    return skin;
}

}  // namespace warden
