// How does a command get its rig?
#pragma once

#include <CLI/CLI.hpp>
#include <map>
#include <string>
#include <vector>

#include "ligament/graph.hpp"
#include "ligament/read.hpp"
#include "ligament/review.hpp"

namespace ligament::cli {

/// What may stand for RIG.
inline constexpr const char* rig_help = "rig description, glTF, GLB or VRM file, - for standard input";

/// How the rigs of a call are read, and by which rules they are judged.
struct InputOptions {
    ReadOptions reading;
    std::string rules;      ///< a rules file for all of them; else the one found above each
    bool no_rules = false;  ///< none at all
};

/// Adds the argument RIG, one or several, and the options --controls, --rules and --no-rules.
void add_rig(CLI::App& app, std::string& path, InputOptions& input);
void add_rig(CLI::App& app, std::vector<std::string>& paths, InputOptions& input);
/// --controls alone, for commands that judge nothing.
void add_controls_option(CLI::App& app, InputOptions& input);
/// All three.
void add_input_options(CLI::App& app, InputOptions& input);

/// The rules that hold for a rig, each file read once. Throws Unusable, once all that is wrong with them is said.
class RulesOfCall {
  public:
    explicit RulesOfCall(const InputOptions& input) : input_(input) {}
    const Rules& of(const std::string& rig_path);
    /// The files behind them, with those that they extend.
    const std::vector<std::string>& files() const { return files_; }

  private:
    const InputOptions& input_;
    std::map<std::string, Rules> by_file_;
    std::vector<std::string> files_;
};

/// Reads a rig, with the root controls that the rules name.
ReadResult read_rig_by(const std::string& path, const InputOptions& input, const Rules& rules);

/// Every fault as "file:line:column: message" on standard error.
void print_faults(const std::string& path, const std::vector<Fault>& faults);

/// A rig and the rules that hold for it.
struct LoadedRig {
    Rig rig;
    Rules rules;
};

/// The rig at `path`. Prints its faults, or those of its rules, and throws Unusable when there are some.
LoadedRig load_rig(const std::string& path, const InputOptions& input);

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
