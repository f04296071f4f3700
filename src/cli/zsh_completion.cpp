// How does zsh complete a call?
#include <ostream>

#include "shells.hpp"

namespace ligament::cli {

namespace {

/// Inside single quotes, where `special` characters of what reads it there have a backslash before them.
std::string in_quotes(std::string_view text, std::string_view special) {
    std::string out;
    for (const char c : text) {
        if (c == '\'')
            out += "'\\''";
        else if (special.find(c) != std::string_view::npos)
            out.append("\\") += c;
        else
            out += c;
    }
    return out;
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
    std::string text;
    for (const std::string& word : words) text.append(text.empty() ? "" : between).append(word);
    return text;
}

/// ":FORMAT:(text json)"
std::string value_part(const ValueWords& value) {
    const std::string name = ":" + in_quotes(value.name, "\\:[]") + ':';
    switch (value.kind) {
        case ValueWords::Kind::none:
            return {};
        case ValueWords::Kind::choices:
            return name + '(' + joined(value.choices, " ") + ')';
        case ValueWords::Kind::files:
            return name + "_files";
        case ValueWords::Kind::rigs: {
            std::vector<std::string> suffixes;
            for (const std::string_view suffix : rig_suffixes) suffixes.emplace_back(suffix.substr(1));
            return name + "_files -g \"*.(" + joined(suffixes, "|") + ")\"";
        }
        case ValueWords::Kind::open:
            break;
    }
    return name + " ";
}

void write_option(std::ostream& out, const OptionWords& option, std::string_view margin) {
    const std::string help = "[" + in_quotes(first_line(option.help), "\\[]:") + "]";
    const bool has_value = option.value.kind != ValueWords::Kind::none;
    for (const std::string& name : option.names) {
        const bool is_long = name.starts_with("--");
        std::string others;
        for (const std::string& other : option.names)
            if (!option.may_repeat && option.names.size() > 1) others.append(others.empty() ? "" : " ").append(other);
        out << margin << '\''
            << (option.may_repeat ? "*"
                : others.empty()  ? ""
                                  : "(" + others + ")")
            << name
            << (!has_value ? ""
                : is_long  ? "="
                           : "+")
            << help << value_part(option.value) << "' \\\n";
    }
}

void write_command(std::ostream& out, const CommandWords& command) {
    out << "        " << command.name << ")\n            _arguments -s \\\n";
    for (const OptionWords& option : command.options) write_option(out, option, "                ");
    for (std::size_t i = 0; i < command.arguments.size(); ++i) {
        const OptionWords& argument = command.arguments[i];
        const std::string place = argument.may_repeat ? "*" : std::to_string(i + 1);
        out << "                '" << place << (argument.is_required || argument.may_repeat ? "" : ":")
            << value_part(argument.value) << "' \\\n";
    }
    out << "                && return 0\n            ;;\n";
}

}  // namespace

void write_zsh_completion(std::ostream& out, const ProgramWords& program) {
    out << "#compdef " << program.name << "\n# Completes calls of " << program.name << " in zsh. Made by: " << program.name
        << " completion zsh\n\n_ligament() {\n    local context state state_descr line\n    typeset -A opt_args\n"
        << "    local -a commands=(\n";
    for (const CommandWords& command : program.commands)
        out << "        '" << command.name << ':' << in_quotes(command.summary, "\\:") << "'\n";
    out << "    )\n    _arguments -C \\\n";
    for (const OptionWords& option : program.options) write_option(out, option, "        ");
    out << "        '1:command:->command' \\\n        '*::argument:->arguments' && return 0\n"
        << "    case $state in\n    command)\n        _describe command commands\n        ;;\n    arguments)\n"
        << "        case $words[1] in\n";
    for (const CommandWords& command : program.commands) write_command(out, command);
    out << "        esac\n        ;;\n    esac\n}\n\n"
        << "if [[ $funcstack[1] == _ligament ]]; then\n    _ligament \"$@\"\nelse\n    compdef _ligament ligament\nfi\n";
}

}  // namespace ligament::cli
