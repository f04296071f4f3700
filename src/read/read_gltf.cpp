// Which rig does a glTF 2.0 file hold? Its parts, put together.
#include <algorithm>
#include <filesystem>
#include <set>

#include "chosen_controls.hpp"
#include "draft.hpp"
#include "glb.hpp"
#include "gltf_draft.hpp"
#include "gltf_names.hpp"
#include "gltf_parts.hpp"
#include "gltf_roles.hpp"
#include "gltf_scenes.hpp"
#include "json_scanner.hpp"
#include "ligament/read.hpp"
#include "patterns.hpp"

namespace ligament {

namespace {

constexpr std::uint32_t outermost = 0;

// Whether the text says that it is glTF 2.0.
bool check_asset(const GltfTaker& taker) {
    const JsonDocument& json = taker.json;
    if (json[outermost].type != Token::Type::object) {
        taker.fault(outermost, "a glTF file is an object with \"asset\", found something else");
        return false;
    }
    const std::uint32_t asset = json.find(outermost, "asset"), version = json.find(outermost, {"asset", "version"});
    if (asset == none || version == none) {
        taker.fault(asset == none ? outermost : asset, "a glTF file needs \"asset\" with \"version\"");
        return false;
    }
    const std::uint32_t least = json.find(asset, "minVersion");
    for (const std::uint32_t item : {version, least}) {
        if (item == none || json[item].type == Token::Type::text) continue;
        taker.complain(item, "the version of a glTF file is a string, \"2.0\", found " +
                                 found_text({.type = json[item].type, .number = json[item].number, .flag = json[item].flag}));
        return false;
    }
    const std::string_view wanted = json[least == none ? version : least].text;
    if (wanted == "2.0" || (least == none && wanted.starts_with("2."))) return true;
    taker.fault(least == none ? version : least, "glTF version " + in_quotes(wanted) + " is not read, only 2.0");
    return false;
}

void remark_extensions(const Gltf& gltf, const GltfTaker& taker) {
    for (const auto& [list, words] :
         {std::pair(std::string_view("extensionsUsed"), std::string_view("not looked at: ")),
          std::pair(std::string_view("extensionsRequired"), std::string_view("required, but not looked at: "))}) {
        std::string names;
        std::set<std::string_view> told;
        for (const std::string_view name : list == "extensionsUsed" ? gltf.extensions_used : gltf.extensions_required)
            if (!is_known_extension(name) && told.insert(name).second) names += (names.empty() ? "" : ", ") + in_quotes(name);
        if (names.empty()) continue;
        const std::uint32_t item = taker.json.find(outermost, list);
        taker.remarks.push_back({Remark::Kind::extension_unread, std::string(words) + names, {}, taker.json[item].place, {}});
    }
}

// The pointer to the last value that begins at a place or before it; one in an object begins with its key.
std::string pointer_to(const JsonDocument& json, Place place) {
    const auto before = [](Place a, const JsonItem& b) { return a < (b.key_place == Place{} ? b.place : b.key_place); };
    const auto behind = std::upper_bound(json.items.begin(), json.items.end(), place, before);
    return behind == json.items.begin() ? "" : json.pointer_to(static_cast<std::uint32_t>(behind - json.items.begin() - 1));
}

// Of all that findings may be about.
std::vector<std::pair<Place, std::string>> pointers_of(const JsonDocument& json, const Rig& rig) {
    std::vector<Place> places;
    for (const Bone& bone : rig.bones) {
        places.push_back(bone.place);
        for (const ChannelValue& channel : bone.channels) places.push_back(channel.place);
        for (const Constraint& constraint : bone.constraints) places.push_back(constraint.place);
    }
    for (const Driver& driver : rig.drivers) places.push_back(driver.place);
    for (const Object& object : rig.objects) places.push_back(object.place);
    for (const Property& property : rig.properties) places.push_back(property.place);
    for (const Remark& remark : rig.remarks) places.push_back(remark.place);
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    std::vector<std::pair<Place, std::string>> pointers;
    for (const Place place : places)
        if (place != Place{}) pointers.emplace_back(place, pointer_to(json, place));
    return pointers;
}

std::vector<std::string> node_names(const Gltf& gltf) {
    std::vector<std::string_view> names;
    for (const GltfNode& node : gltf.nodes) names.push_back(node.name);
    return unique_names(names, "node");
}

// That of the VRM, else that of the file.
std::string rig_name(const JsonDocument& json, const Gltf& gltf, const std::string& path) {
    constexpr std::size_t longest = 1'000;
    for (const std::uint32_t item :
         {json.find(gltf.extensions, {"VRMC_vrm", "meta", "name"}), json.find(gltf.extensions, {"VRM", "meta", "title"})})
        if (item != none && !json[item].text.empty() && json[item].text.size() <= longest) return std::string(json[item].text);
    const std::string stem = std::filesystem::path(path).stem().string();
    return stem.empty() || path == "-" ? "unnamed" : stem;
}

std::string folder_of(const std::string& path) {
    if (path.empty() || path == "-") return {};
    const std::string folder = std::filesystem::path(path).parent_path().string();
    return folder.empty() ? "." : folder;
}

struct Input {
    std::string path;
    std::optional<std::string_view> binary;
    const ReadOptions& options;
};

// Of what is told in masses so much is kept, and that there is more.
void drop_masses(Remarks& remarks, Remark::Kind kind) {
    std::size_t count = 0;
    std::erase_if(remarks, [&](const Remark& remark) { return remark.kind == kind && ++count > GltfTaker::remark_limit; });
    if (count <= GltfTaker::remark_limit) return;
    const std::string message = "there is more of this, listed are " + std::to_string(GltfTaker::remark_limit);
    remarks.push_back({kind, message, {}, remarks.back().place, {}});
}

// Before root controls are told from them. What the file carries is chosen among afterwards, as in any format.
void choose_controls(GltfRoles& roles, const std::vector<std::string>& names, const std::vector<std::string>& patterns) {
    if (patterns.empty()) return;
    for (std::size_t node = 0; node < names.size(); ++node)
        roles.control[node] = std::any_of(patterns.begin(), patterns.end(),
                                          [&](const std::string& pattern) { return is_named_by(pattern, names[node]); });
}

ReadResult read_document(const JsonDocument& json, const Input& input, FaultList& faults, Remarks& remarks) {
    Draft draft;
    draft.faults = std::move(faults);
    const GltfTaker taker{json, draft.faults, remarks};
    if (!check_asset(taker)) return finish(draft);
    const Gltf gltf = take_gltf_parts(taker);
    const GltfTree tree = build_gltf_tree(gltf, taker);
    check_gltf_skins(gltf, tree, taker);
    check_gltf_scenes(gltf, tree, taker);
    const std::string folder = folder_of(input.path);
    const Vrm vrm = take_vrm(gltf, tree, taker);
    const std::vector<SkinWeights> weights = find_weighted_joints({gltf, json, input.binary, folder, input.options}, remarks);
    const std::vector<std::string> names = node_names(gltf);
    GltfRoles roles = find_gltf_roles(gltf, tree, vrm, weights);
    choose_controls(roles, names, input.options.controls);
    remark_unweighted_joints(gltf, tree, roles, weights, taker);
    remark_extensions(gltf, taker);
    fill_draft({gltf, json, tree, vrm, roles, names, find_gltf_groups(gltf, tree, vrm, names)}, draft);
    resolve_names(draft);
    if (draft.rig.name.empty()) draft.rig.name = rig_name(json, gltf, input.path);
    std::stable_sort(remarks.begin(), remarks.end(), [](const Remark& a, const Remark& b) { return a.place < b.place; });
    drop_masses(remarks, Remark::Kind::standard_broken);
    drop_masses(remarks, Remark::Kind::weights_unread);
    for (Remark& remark : remarks)
        if (remark.pointer.empty() && remark.place != Place{}) remark.pointer = pointer_to(json, remark.place);
    draft.rig.remarks = std::move(remarks);
    draft.rig.pointers = pointers_of(json, draft.rig);
    return finish(draft);
}

// Faults of parts that other formats have too know their place alone.
void add_pointers(const JsonDocument& json, std::vector<Fault>& faults) {
    for (Fault& fault : faults)
        if (fault.pointer.empty() && fault.place != Place{}) fault.pointer = pointer_to(json, fault.place);
}

}  // namespace

ReadResult read_gltf(std::string_view content, const std::string& path, const ReadOptions& options) {
    FaultList faults;
    Remarks remarks;
    GlbParts parts{content, std::nullopt};
    if (content.starts_with("glTF")) parts = split_glb(content, faults, remarks);
    if (!faults.empty()) return {std::nullopt, faults.take()};
    if (parts.json.starts_with(byte_order_mark)) {
        parts.json.remove_prefix(byte_order_mark.size());
        remarks.push_back({Remark::Kind::standard_broken, "the text begins with a byte order mark", {}, {1, 1}, {}});
    }
    if (parts.json.find_first_not_of(" \t\r\n") == std::string_view::npos) {
        faults.add({{1, 1}, "the JSON is empty, wanted a glTF file", {}});
        return {std::nullopt, faults.take()};
    }
    const JsonDocument json = read_json_document(parts.json, options.gltf_value_limit, faults);
    if (!json.is_complete) return {std::nullopt, faults.take()};
    ReadResult result = read_document(json, {path, parts.binary, options}, faults, remarks);
    add_pointers(json, result.faults);
    return result;
}

}  // namespace ligament
