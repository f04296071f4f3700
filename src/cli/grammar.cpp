#include "grammar.hpp"

#include <algorithm>
#include <set>
#include <sstream>

#include "ligament/checks.hpp"

namespace ligament::cli {

namespace {

// Names of values that are paths.
constexpr std::array<std::string_view, 3> file_words{"FILE", "FOLDER", "SHARD"};

/// "FORMAT:{text,json}" of the help, taken apart.
void read_type(const std::string& type, ValueWords& value) {
    value.name = type.substr(0, type.find(':'));
    const std::size_t open = type.find(":{"), close = type.rfind('}');
    if (open == std::string::npos || close == std::string::npos) return;
    std::istringstream choices(type.substr(open + 2, close - open - 2));
    for (std::string choice; std::getline(choices, choice, ',');) value.choices.push_back(choice);
}

ValueWords value_of(const CLI::Option& option) {
    ValueWords value;
    if (option.get_items_expected_max() == 0) return value;
    read_type(option.get_type_name(), value);
    if (value.name.empty()) value.name = option.get_name(/*positional=*/true);
    if (value.name == "CHECK")
        for (const Check& check : all_checks()) value.choices.emplace_back(check.name);
    if (!value.choices.empty())
        value.kind = ValueWords::Kind::choices;
    else if (value.name == "RIG")
        value.kind = ValueWords::Kind::rigs;
    else if (std::find(file_words.begin(), file_words.end(), value.name) != file_words.end())
        value.kind = ValueWords::Kind::files;
    else
        value.kind = ValueWords::Kind::open;
    return value;
}

std::string relations_of(const CLI::Option& option) {
    std::string text;
    const auto add = [&](std::string_view word, const std::set<CLI::Option*>& others) {
        std::set<std::string> names;  // the set of others is in no order that holds
        for (const CLI::Option* other : others) names.insert(other->get_name());
        for (const std::string& name : names) text.append(text.empty() ? "" : ", ").append(word).append(" ").append(name);
    };
    add("only with", option.get_needs());
    add("not with", option.get_excludes());
    return text;
}

OptionWords option_words(const CLI::Option& option) {
    OptionWords words;
    for (const std::string& name : option.get_snames()) words.names.push_back("-" + name);
    for (const std::string& name : option.get_lnames()) words.names.push_back("--" + name);
    words.value = value_of(option);
    words.help = option.get_description();
    words.fallback = option.get_default_str();
    words.relations = relations_of(option);
    words.is_required = option.get_required();
    words.may_repeat = option.get_expected_max() > 1;
    return words;
}

CommandWords command_words(const CLI::App& app) {
    CommandWords words{
        .name = app.get_name(), .summary = app.get_description(), .footer = app.get_footer(), .options = {}, .arguments = {}};
    for (const CLI::Option* option : app.get_options())
        (option->get_positional() ? words.arguments : words.options).push_back(option_words(*option));
    return words;
}

}  // namespace

ProgramWords words_of(const CLI::App& app) {
    ProgramWords words{
        .name = app.get_name(), .description = app.get_description(), .footer = app.get_footer(), .options = {}, .commands = {}};
    for (const CLI::Option* option : app.get_options()) words.options.push_back(option_words(*option));
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        words.commands.push_back(command_words(*command));
    return words;
}

std::string first_line(const std::string& help) {
    std::string line = help.substr(0, help.find('\n'));
    if (line.ends_with(':')) line.pop_back();
    return line;
}

}  // namespace ligament::cli
