// How does the marsh warden become a VRM 1.0 file?
#include "warden.hpp"

#include <cmath>

#include "../json_lines.hpp"

namespace warden {

namespace {

/// Rounded to a micrometre, so that every machine writes the same digits; never a negative zero.
double rounded(double number) { return std::round(number * 1e6) / 1e6 + 0.0; }

Json write_nodes(const Warden& warden) {
    Json nodes = Json::array();
    for (const Node& node : warden.nodes) {
        Json written{{"name", node.name}};
        if (node.parent != none) {
            Vec3 away{};
            for (std::size_t axis = 0; axis < 3; ++axis)
                away[axis] = rounded(node.place[axis] - warden.nodes[node.parent].place[axis]);
            written["translation"] = away;
            nodes[node.parent]["children"].push_back(nodes.size());
        }
        if (!node.constraint.is_null())
            written["extensions"]["VRMC_node_constraint"] = {{"specVersion", "1.0"}, {"constraint", node.constraint}};
        nodes.push_back(written);
    }
    nodes.push_back({{"name", "warden_skin"}, {"mesh", 0}, {"skin", 0}});
    return nodes;
}

Json write_humanoid(const Warden& warden) {
    Json bones = Json::object();
    for (std::size_t i = 0; i < warden.nodes.size(); ++i)
        if (!warden.nodes[i].human.empty()) bones[warden.nodes[i].human] = {{"node", i}};
    const Json meta{{"name", "marsh warden"},
                    {"version", "1"},
                    {"authors", {"the ligament examples"}},
                    {"licenseUrl", "https://vrm.dev/licenses/1.0/"}};
    return {{"specVersion", "1.0"}, {"meta", meta}, {"humanoid", {{"humanBones", bones}}}};
}

void append(std::string& bytes, std::size_t number) {
    for (int i = 0; i < 4; ++i) bytes += static_cast<char>(number >> (8 * i) & 0xFFU);
}

void append_chunk(std::string& bytes, const char* type, std::string content, char padding) {
    content.resize((content.size() + 3) / 4 * 4, padding);
    append(bytes, content.size());
    bytes += std::string(type, 4) + content;
}

}  // namespace

Warden build_warden() {
    Warden warden;
    add_body(warden);
    add_constraints(warden);
    add_springs(warden);
    return warden;
}

std::string write_vrm(const Warden& warden) {
    const Skin skin = build_skin(warden);
    const Json coat{{"name", "coat"},
                    {"pbrMetallicRoughness", {{"baseColorFactor", {0.3, 0.36, 0.28, 1}}, {"metallicFactor", 0}}}};
    // What glTF and VRM have no word for: who carries the whole warden about, and which names are two sides of one.
    const Json rig{{"sides", Json::array({{"_l", "_r"}})}, {"roots", {"warden"}}};
    const Json document{
        {"asset", {{"version", "2.0"}, {"generator", "make_warden"}}},
        {"extensionsUsed", {"VRMC_vrm", "VRMC_node_constraint", "VRMC_springBone"}},
        {"scene", 0},
        {"scenes", Json::array({{{"name", "marsh"}, {"nodes", {0, warden.nodes.size()}}}})},
        {"nodes", write_nodes(warden)},
        {"skins", Json::array({{{"name", "warden_skin"}, {"joints", skin.joints}, {"inverseBindMatrices", 4}, {"skeleton", 0}}})},
        {"meshes", Json::array({{{"name", "warden_skin"}, {"primitives", Json::array({skin.primitive})}}})},
        {"materials", Json::array({coat})},
        {"accessors", skin.accessors},
        {"bufferViews", skin.views},
        {"buffers", Json::array({{{"byteLength", skin.bytes.size()}}})},
        {"extensions", {{"VRMC_vrm", write_humanoid(warden)}, {"VRMC_springBone", warden.springs}}},
        {"extras", {{"rig", rig}}}};
    std::string chunks, file = "glTF";
    append_chunk(chunks, "JSON", json_lines(document), ' ');
    append_chunk(chunks, "BIN\0", skin.bytes, '\0');
    append(file, 2);  // the version of the container
    append(file, 12 + chunks.size());
    return file + chunks;
}

}  // namespace warden
