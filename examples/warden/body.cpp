// Which nodes has the marsh warden, and where do they rest?
#include <stdexcept>
#include <vector>

#include "warden.hpp"

namespace warden {

namespace {

/// One line of a table. A thickness of 0 makes an end tip, which is a joint that moves no skin; `human` is given without its
/// side.
struct Row {
    std::string name, parent;
    Vec3 place, end;
    double thickness = 0;
    std::string human = {};
};

const std::vector<Row> middle{
    {"hips", "warden", {0, 0.92, 0}, {0, 1.02, 0}, 0.26, "hips"},   {"spine", "hips", {0, 1.02, 0}, {0, 1.18, 0}, 0.22, "spine"},
    {"chest", "spine", {0, 1.18, 0}, {0, 1.42, 0}, 0.24, "chest"},  {"neck", "chest", {0, 1.42, 0}, {0, 1.5, 0}, 0.09, "neck"},
    {"head", "neck", {0, 1.5, 0}, {0, 1.72, 0}, 0.17, "head"},      {"head_tip", "head", {0, 1.72, 0}, {}},
    {"hood", "chest", {0, 1.44, -0.1}, {0, 1.54, -0.12}, 0.1},      {"hair_1", "head", {0, 1.66, -0.09}, {0, 1.54, -0.12}, 0.06},
    {"hair_2", "hair_1", {0, 1.54, -0.12}, {0, 1.43, -0.13}, 0.04}, {"hair_tip", "hair_2", {0, 1.43, -0.13}, {}},
    {"cloak_1", "chest", {0, 1.38, -0.13}, {0, 1.1, -0.16}, 0.08},  {"cloak_2", "cloak_1", {0, 1.1, -0.16}, {0, 0.8, -0.2}, 0.08},
    {"cloak_3", "cloak_2", {0, 0.8, -0.2}, {0, 0.5, -0.23}, 0.08},  {"cloak_tip", "cloak_3", {0, 0.5, -0.23}, {}},
};

// The left side, without its suffix.
const std::vector<Row> beside{
    {"eye", "head", {0.035, 1.61, 0.08}, {0.035, 1.61, 0.1}, 0.02, "Eye"},
    {"hair_lock", "head", {0.08, 1.64, 0.02}, {0.1, 1.45, 0.03}, 0.04},
    {"hair_lock_tip", "hair_lock", {0.1, 1.45, 0.03}, {}},
    {"shoulder", "chest", {0.03, 1.38, 0}, {0.15, 1.4, 0}, 0.09, "Shoulder"},
    {"upper_arm", "shoulder", {0.15, 1.4, 0}, {0.27, 1.4, 0}, 0.09, "UpperArm"},
    {"upper_arm_twist", "upper_arm", {0.27, 1.4, 0}, {0.4, 1.4, 0}, 0.085},
    {"lower_arm", "upper_arm", {0.4, 1.4, 0}, {0.52, 1.4, 0}, 0.08, "LowerArm"},
    {"lower_arm_twist", "lower_arm", {0.52, 1.4, 0}, {0.64, 1.4, 0}, 0.07},
    {"hand", "lower_arm", {0.64, 1.4, 0}, {0.72, 1.4, 0}, 0.07, "Hand"},
    {"thumb_1", "hand", {0.66, 1.39, 0.03}, {0.69, 1.38, 0.05}, 0.025, "ThumbMetacarpal"},
    {"thumb_2", "thumb_1", {0.69, 1.38, 0.05}, {0.72, 1.37, 0.06}, 0.02, "ThumbProximal"},
    {"finger_1", "hand", {0.72, 1.4, 0.01}, {0.76, 1.4, 0.01}, 0.04, "IndexProximal"},
    {"finger_2", "finger_1", {0.76, 1.4, 0.01}, {0.8, 1.4, 0.01}, 0.035, "IndexIntermediate"},
    {"finger_tip", "finger_2", {0.8, 1.4, 0.01}, {}},
    {"upper_leg", "hips", {0.09, 0.9, 0}, {0.09, 0.5, 0}, 0.14, "UpperLeg"},
    {"lower_leg", "upper_leg", {0.09, 0.5, 0}, {0.09, 0.1, 0}, 0.11, "LowerLeg"},
    {"foot", "lower_leg", {0.09, 0.1, 0}, {0.09, 0.04, 0.12}, 0.08, "Foot"},
    {"toes", "foot", {0.09, 0.04, 0.12}, {0.09, 0.03, 0.19}, 0.07, "Toes"},
    {"toes_tip", "toes", {0.09, 0.03, 0.19}, {}},
    {"cloak_side_1", "chest", {0.14, 1.36, -0.1}, {0.19, 0.95, -0.15}, 0.07},
    {"cloak_side_2", "cloak_side_1", {0.19, 0.95, -0.15}, {0.22, 0.55, -0.18}, 0.07},
    {"cloak_side_tip", "cloak_side_2", {0.22, 0.55, -0.18}, {}},
};

// The right hand carries the lantern.
const std::vector<Row> carried{
    {"lantern_ring", "hand_r", {-0.69, 1.35, 0}, {-0.69, 1.25, 0}, 0.02},
    {"lantern", "lantern_ring", {-0.69, 1.25, 0}, {-0.69, 1.05, 0}, 0.12},
    {"lantern_lens", "lantern", {-0.69, 1.15, 0.06}, {-0.69, 1.15, 0.09}, 0.06},
};

std::size_t find(const Warden& warden, std::string_view name) {
    for (std::size_t i = 0; i < warden.nodes.size(); ++i)
        if (warden.nodes[i].name == name) return i;
    return none;
}

Vec3 mirrored(const Vec3& place) { return {-place[0], place[1], place[2]}; }

void add(Warden& warden, const Row& row) {
    warden.nodes.push_back(
        {row.name, node_named(warden, row.parent), row.place, row.end, row.thickness, true, row.human, nullptr});
}

void add_side(Warden& warden, const std::string& suffix, const std::string& side) {
    for (Row row : beside) {
        if (find(warden, row.parent + suffix) != none) row.parent += suffix;
        row.name += suffix;
        if (!row.human.empty()) row.human = side + row.human;
        if (side == "right") {
            row.place = mirrored(row.place);
            row.end = mirrored(row.end);
        }
        add(warden, row);
    }
}

}  // namespace

std::size_t node_named(const Warden& warden, std::string_view name) {
    const std::size_t node = find(warden, name);
    if (node == none) throw std::logic_error("no node " + std::string(name));
    return node;
}

void add_body(Warden& warden) {
    warden.nodes.push_back({.name = "warden"});
    for (const Row& row : middle) add(warden, row);
    add_side(warden, "_l", "left");
    add_side(warden, "_r", "right");
    for (const Row& row : carried) add(warden, row);
    warden.nodes.push_back({.name = "look_target", .parent = 0, .place = {-0.3, 1.3, 2}});
}

}  // namespace warden
