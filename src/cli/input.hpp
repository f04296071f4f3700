// How does a command get its rig?
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "ligament/graph.hpp"
#include "ligament/read.hpp"

namespace ligament::cli {

/// Adds the argument RIG, one or several, and the option --controls.
void add_rig(CLI::App& app, std::string& path, ReadOptions& reading);
void add_rig(CLI::App& app, std::vector<std::string>& paths, ReadOptions& reading);

/// Every fault as "file:line:column: message" on standard error.
void print_faults(const std::string& path, const std::vector<Fault>& faults);

/// The rig at `path`. Prints its faults and throws Unusable when it has some.
Rig load_rig(const std::string& path, const ReadOptions& reading);

/// ", nearest is "wing_l"", or nothing where no known name is near.
std::string nearest_words(std::string_view name, const std::vector<std::string_view>& known);

/// The property of that name. Throws Unusable with the nearest known name when there is none.
PropertyId property_named(const Rig& rig, const std::string& path, std::string_view name);

/// The bone, or else property, or else object of that name. Throws Unusable with the nearest known name when there is none.
struct Named {
    BoneId bone = none;
    PropertyId property = none;
    ObjectId object = none;
};
Named find_named(const Rig& rig, const std::string& path, std::string_view name);

}  // namespace ligament::cli
