#include "input.hpp"

#include <iostream>

#include "ligament/report.hpp"
#include "status.hpp"

namespace ligament::cli {

void add_controls_option(CLI::App& app, InputOptions& input) {
    app.add_option("--controls", input.reading.controls,
                   "take as controls the bones with such a name (* ? [a-z]) and no others; may be repeated")
        ->allow_extra_args(false)
        ->type_name("PATTERN");
}

void add_input_options(CLI::App& app, InputOptions& input) {
    add_controls_option(app, input);
    CLI::Option* rules =
        app.add_option("--rules", input.rules,
                       "go by this rules file, not by the nearest ligament.rules.json in the folder of the rig or "
                       "above it");
    rules->type_name("FILE");
    app.add_flag("--no-rules", input.no_rules, "go by no rules file")->excludes(rules);
}

void add_rig(CLI::App& app, std::string& path, InputOptions& input) {
    app.add_option("RIG", path, rig_help)->required()->type_name("");
    add_input_options(app, input);
}

void add_rig(CLI::App& app, std::vector<std::string>& paths, InputOptions& input) {
    app.add_option("RIG", paths, rig_help)->required()->type_name("");
    add_input_options(app, input);
}

const Rules& RulesOfCall::of(const std::string& rig_path) {
    static const Rules none_at_all;
    if (input_.no_rules) return none_at_all;
    const std::string file = input_.rules.empty() ? find_rules_file(rig_path) : input_.rules;
    if (file.empty()) return none_at_all;
    if (const auto known = by_file_.find(file); known != by_file_.end()) return known->second;
    RulesResult result = read_rules(file);
    for (const FaultyFile& faulty : result.faulty) print_faults(faulty.file, faulty.faults);
    if (!result.rules) throw Unusable("");
    files_.insert(files_.end(), result.files.begin(), result.files.end());
    return by_file_.emplace(file, *std::move(result.rules)).first->second;
}

ReadResult read_rig_by(const std::string& path, const InputOptions& input, const Rules& rules) {
    ReadResult result = read_rig_file(path, input.reading);
    if (result.rig) apply_roots(*result.rig, rules);
    return result;
}

void print_faults(const std::string& path, const std::vector<Fault>& faults) {
    for (const Fault& fault : faults)
        std::cerr << place_text(path, fault.place) << ": " << printable(fault.message) << pointer_text(fault.pointer) << '\n';
}

LoadedRig load_rig(const std::string& path, const InputOptions& input) {
    RulesOfCall rules(input);
    LoadedRig loaded;
    loaded.rules = rules.of(path);
    ReadResult result = read_rig_by(path, input, loaded.rules);
    print_faults(path, result.faults);
    if (!result.rig) throw Unusable("");
    loaded.rig = *std::move(result.rig);
    return loaded;
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
