// What of the marsh warden swings, and what stops it? Springs as VRMC_springBone 1.0 has them.
#include <vector>

#include "warden.hpp"

namespace warden {

namespace {

struct Cloth {
    double stiffness, drag, gravity, radius;
};

constexpr Cloth hair{1.2, 0.4, 0.1, 0.02}, wool{0.6, 0.6, 0.5, 0.04};

Json spring(const Warden& warden, const std::string& name, const std::vector<std::string>& chain, const Cloth& cloth,
            const Json& groups) {
    Json joints = Json::array();
    for (const std::string& joint : chain)
        joints.push_back({{"node", node_named(warden, joint)},
                          {"hitRadius", cloth.radius},
                          {"stiffness", cloth.stiffness},
                          {"gravityPower", cloth.gravity},
                          {"gravityDir", {0, -1, 0}},
                          {"dragForce", cloth.drag}});
    return {{"name", name}, {"joints", joints}, {"colliderGroups", groups}};
}

Json sphere(const Warden& warden, const std::string& node, const Vec3& offset, double radius) {
    return {{"node", node_named(warden, node)}, {"shape", {{"sphere", {{"offset", offset}, {"radius", radius}}}}}};
}

Json capsule(const Warden& warden, const std::string& node, const Vec3& tail, double radius) {
    const Json shape{{"offset", {0, 0, 0}}, {"radius", radius}, {"tail", tail}};
    return {{"node", node_named(warden, node)}, {"shape", {{"capsule", shape}}}};
}

}  // namespace

void add_springs(Warden& warden) {
    const Json colliders{sphere(warden, "head", {0, 0.1, 0}, 0.1), capsule(warden, "chest", {0, 0.22, 0}, 0.12),
                         capsule(warden, "upper_leg_l", {0, -0.4, 0}, 0.08), capsule(warden, "upper_leg_r", {0, -0.4, 0}, 0.08)};
    const Json groups{{{"name", "head_and_chest"}, {"colliders", {0, 1}}},
                      {{"name", "trunk_and_legs"}, {"colliders", {1, 2, 3}}}};
    Json springs = Json::array({spring(warden, "hair", {"hair_1", "hair_2", "hair_tip"}, hair, {0}),
                                spring(warden, "cloak", {"cloak_1", "cloak_2", "cloak_3", "cloak_tip"}, wool, {1})});
    for (const std::string suffix : {"_l", "_r"}) {
        const std::string lock = "hair_lock", side = "cloak_side";
        springs.push_back(spring(warden, lock + suffix, {lock + suffix, lock + "_tip" + suffix}, hair, {0}));
        springs.push_back(
            spring(warden, side + suffix, {side + "_1" + suffix, side + "_2" + suffix, side + "_tip" + suffix}, wool, {1}));
    }
    // The cloak swings against the warden's own walk only, not against being carried about the world.
    for (Json& each : springs)
        if (each["name"].get<std::string>().starts_with("cloak")) each["center"] = node_named(warden, "warden");
    warden.springs = {{"specVersion", "1.0"}, {"colliders", colliders}, {"colliderGroups", groups}, {"springs", springs}};
}

}  // namespace warden
