#include "input.hpp"

#include <iostream>

#include "ligament/report.hpp"
#include "status.hpp"

namespace ligament::cli {

namespace {

constexpr const char* rig_help = "rig description, glTF, GLB or VRM file, - for standard input";

void add_controls_option(CLI::App& app, ReadOptions& reading) {
    app.add_option("--controls", reading.controls,
                   "take as controls the bones with such a name (* ? [a-z]) and no others; may be repeated")
        ->allow_extra_args(false)
        ->type_name("PATTERN");
}

}  // namespace

void add_rig(CLI::App& app, std::string& path, ReadOptions& reading) {
    app.add_option("RIG", path, rig_help)->required()->type_name("");
    add_controls_option(app, reading);
}

void add_rig(CLI::App& app, std::vector<std::string>& paths, ReadOptions& reading) {
    app.add_option("RIG", paths, rig_help)->required()->type_name("");
    add_controls_option(app, reading);
}

void print_faults(const std::string& path, const std::vector<Fault>& faults) {
    for (const Fault& fault : faults)
        std::cerr << place_text(path, fault.place) << ": " << printable(fault.message) << pointer_text(fault.pointer) << '\n';
}

Rig load_rig(const std::string& path, const ReadOptions& reading) {
    ReadResult result = read_rig_file(path, reading);
    if (result.rig) return *std::move(result.rig);
    print_faults(path, result.faults);
    throw Unusable("");
}

std::string nearest_words(std::string_view name, const std::vector<std::string_view>& known) {
    const std::string nearest = nearest_name(name, known);
    return nearest.empty() ? "" : ", nearest is \"" + nearest + '"';
}

PropertyId property_named(const Rig& rig, const std::string& path, std::string_view name) {
    const PropertyId id = find_property(rig, name);
    if (id != none) return id;
    std::vector<std::string_view> known;
    for (const Property& property : rig.properties) known.emplace_back(property.name);
    throw Unusable(path + ": unknown property \"" + std::string(name) + '"' + nearest_words(name, known));
}

Named find_named(const Rig& rig, const std::string& path, std::string_view name) {
    Named named;
    named.bone = find_bone(rig, name);
    if (named.bone == none) named.property = find_property(rig, name);
    if (named.bone == none && named.property == none) named.object = find_object(rig, name);
    if (named.bone != none || named.property != none || named.object != none) return named;
    std::vector<std::string_view> known;
    for (const Bone& bone : rig.bones) known.emplace_back(bone.name);
    for (const Property& property : rig.properties) known.emplace_back(property.name);
    for (const Object& object : rig.objects) known.emplace_back(object.name);
    throw Unusable(path + ": unknown bone, property or object \"" + std::string(name) + '"' + nearest_words(name, known));
}

}  // namespace ligament::cli
