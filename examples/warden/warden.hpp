// Of what is the marsh warden put together? Nodes at their places, and what the extensions of VRM 1.0 say of them.
#pragma once

#include <array>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace warden {

using Json = nlohmann::ordered_json;
using Vec3 = std::array<double, 3>;

inline constexpr std::size_t none = static_cast<std::size_t>(-1);

/// A node whose axes are those of the world while it rests: +Y up, facing +Z, the left side at +X. Places are in the world, in
/// metres.
struct Node {
    std::string name;
    std::size_t parent = none;
    Vec3 place = {};
    Vec3 end = {};         ///< of the box of skin that begins at `place`
    double thickness = 0;  ///< of that box; 0: there is none
    bool is_joint = false;
    std::string human = {};     ///< the bone of a humanoid that it is, or empty
    Json constraint = nullptr;  ///< of VRMC_node_constraint, or null
};

struct Warden {
    std::vector<Node> nodes;  ///< parents before children
    Json springs;             ///< the extension VRMC_springBone
};

/// The node of that name; what is not there is a fault of this program.
std::size_t node_named(const Warden& warden, std::string_view name);

/// Trunk, head, limbs, cloak, hair and lantern.
void add_body(Warden& warden);

/// What turns by itself: twists, hood, and the lens of the lantern.
void add_constraints(Warden& warden);

/// What swings: hair and cloak, and the body that stops them.
void add_springs(Warden& warden);

/// The skin as it lies in a buffer.
struct Skin {
    std::string bytes;
    Json views, accessors;
    std::vector<std::size_t> joints;  ///< nodes
    Json primitive;
};

/// One box for each node that has a thickness. The near end moves half with the parent, the far end with the node alone.
Skin build_skin(const Warden& warden);

/// About 1.7 m tall.
Warden build_warden();

/// The bytes of the VRM 1.0 file, which is a GLB.
std::string write_vrm(const Warden& warden);

}  // namespace warden
