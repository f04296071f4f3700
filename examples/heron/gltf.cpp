// How does a whole rig travel in a glTF 2.0 file? Bones are nodes; what glTF has no place for stands in `extras.rig`.
#include "gltf.hpp"

#include <map>
#include <utility>
#include <vector>

#include "../json_lines.hpp"
#include "ligament/read.hpp"

namespace heron {

namespace {

using Json = nlohmann::ordered_json;

// What a node says itself is not said again.
Json node_of(const Json& bone) {
    Json node{{"name", bone["name"]}};
    const Json rest = bone.value("rest", Json::object());
    for (const auto& [key, value] : rest.items()) node[key] = value;
    Json carried = bone;
    for (const char* key : {"name", "parent", "rest"}) carried.erase(key);
    if (!carried.empty()) node["extras"]["rig"] = std::move(carried);
    return node;
}

}  // namespace

std::string write_gltf(const ligament::Rig& rig) {
    Json carried = Json::parse(ligament::write_rig(rig));
    const Json bones = std::move(carried["bones"]);
    for (const char* key : {"format", "version", "bones"}) carried.erase(key);

    std::map<std::string, std::size_t> places;
    for (const Json& bone : bones) places.emplace(bone["name"], places.size());
    std::vector<Json> nodes;
    for (const Json& bone : bones) nodes.push_back(node_of(bone));
    Json roots = Json::array();
    for (const Json& bone : bones) {
        const std::size_t place = places.at(bone["name"]);
        if (bone.contains("parent"))
            nodes[places.at(bone["parent"])]["children"].push_back(place);
        else
            roots.push_back(place);
    }
    return json_lines({{"asset", {{"version", "2.0"}, {"generator", "make_heron"}}},
                       {"scene", 0},
                       {"scenes", Json::array({{{"name", carried["name"]}, {"nodes", roots}}})},
                       {"nodes", nodes},
                       {"extras", {{"rig", carried}}}});
}

}  // namespace heron
