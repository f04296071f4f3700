// What may be said in a call? Commands, options and arguments as values, read off the definitions that calls are parsed by.
#pragma once

#include <CLI/CLI.hpp>
#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace ligament::cli {

/// What names of rig files end in, as far as shells offer them.
inline constexpr std::array<std::string_view, 4> rig_suffixes{".rig.json", ".gltf", ".glb", ".vrm"};

/// What stands for the value of an option, or for an argument.
struct ValueWords {
    enum class Kind : std::uint8_t {
        none,     ///< there is no value: a flag
        open,     ///< what nobody can list: a number, a name of a bone
        choices,  ///< one of `choices`
        files,
        rigs  ///< files of rigs
    };
    Kind kind = Kind::none;
    std::string name;  ///< "FORMAT"
    std::vector<std::string> choices;
};

struct OptionWords {
    std::vector<std::string> names;  ///< "-o", "--output"; none for an argument
    ValueWords value;
    std::string help;       ///< may have several lines
    std::string fallback;   ///< what holds where it is not given; may be empty
    std::string relations;  ///< "not with --around"; may be empty
    bool is_required = false;
    bool may_repeat = false;
};

struct CommandWords {
    std::string name, summary, footer;
    std::vector<OptionWords> options, arguments;
};

struct ProgramWords {
    std::string name, description, footer;
    std::vector<OptionWords> options;
    std::vector<CommandWords> commands;
};

/// All of it, in the order of the help.
ProgramWords words_of(const CLI::App& app);

/// The first line of a help text, without a colon at its end.
std::string first_line(const std::string& help);

}  // namespace ligament::cli
