// How does fish complete a call?
#include <ostream>

#include "shells.hpp"

namespace ligament::cli {

namespace {

std::string in_quotes(std::string_view text) {
    std::string out = "'";
    for (const char c : text) {
        if (c == '\'' || c == '\\') out += '\\';
        out += c;
    }
    return out + '\'';
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
    std::string text;
    for (const std::string& word : words) text.append(text.empty() ? "" : between).append(word);
    return text;
}

/// Fits paths of folders and rigs, with what fish says of them behind a tab.
std::string rig_pattern() {
    std::string pattern = "(?:/";
    for (const std::string_view suffix : rig_suffixes) {
        pattern += '|';
        for (const char c : suffix) pattern += c == '.' ? std::string("\\.") : std::string(1, c);
    }
    return pattern + ")(?:\\t.*)?$";
}

// The command of the call, and which of its arguments the cursor is at, counted from 1.
constexpr std::string_view helpers_head = R"fish(function __ligament_command
    set -l tokens (commandline -opc)
    for token in $tokens[2..-1]
        if not string match -q -- '-*' $token
            echo $token
            return
        end
    end
end

function __ligament_in
    test "$(__ligament_command)" = "$argv[1]"
end

function __ligament_argument
    __ligament_in $argv[1]; or return
    set -l tokens (commandline -opc)
    set -l place 0
    set -l skips no
    for token in $tokens[2..-1]
        if test $skips = yes
            set skips no
        else if contains -- $token (__ligament_valued $argv[1])
            set skips yes
        else if not string match -q -- '-?*' $token
            set place (math $place + 1)
        end
    end
    test $skips = no -a $place -ge $argv[2] -a $place -le $argv[3]
end

function __ligament_rigs
    __fish_complete_path (commandline -ct) | string match -er -- )fish";

void write_option(std::ostream& out, const OptionWords& option, std::string_view condition) {
    out << "complete -c ligament -n " << in_quotes(condition);
    for (const std::string& name : option.names)
        out << (name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1));
    switch (option.value.kind) {
        case ValueWords::Kind::none:
            out << " -f";
            break;
        case ValueWords::Kind::open:
            out << " -x";
            break;
        case ValueWords::Kind::choices:
            out << " -x -a " << in_quotes(joined(option.value.choices, " "));
            break;
        case ValueWords::Kind::files:
            out << " -r -F";
            break;
        case ValueWords::Kind::rigs:
            out << " -x -a '(__ligament_rigs)'";
            break;
    }
    out << " -d " << in_quotes(first_line(option.help)) << '\n';
}

void write_argument(std::ostream& out, const CommandWords& command, std::size_t place) {
    const OptionWords& argument = command.arguments[place - 1];
    if (argument.value.kind == ValueWords::Kind::open) return;
    const std::string last = argument.may_repeat ? "999999" : std::to_string(place);
    out << "complete -c ligament -n "
        << in_quotes("__ligament_argument " + command.name + ' ' + std::to_string(place) + ' ' + last);
    if (argument.value.kind == ValueWords::Kind::choices)
        out << " -f -a " << in_quotes(joined(argument.value.choices, " "));
    else if (argument.value.kind == ValueWords::Kind::rigs)
        out << " -f -a '(__ligament_rigs)'";
    else
        out << " -F";
    out << " -d " << in_quotes(argument.value.name) << '\n';
}

}  // namespace

void write_fish_completion(std::ostream& out, const ProgramWords& program) {
    out << "# Completes calls of " << program.name << " in fish. Made by: " << program.name << " completion fish\n\n"
        << helpers_head << in_quotes(rig_pattern()) << "\nend\n\nfunction __ligament_valued\n    switch $argv[1]\n";
    for (const CommandWords& command : program.commands) {
        out << "        case " << command.name << "\n            printf '%s\\n'";
        for (const OptionWords& option : command.options)
            if (option.value.kind != ValueWords::Kind::none) out << ' ' << joined(option.names, " ");
        out << '\n';
    }
    out << "    end\nend\n\ncomplete -c ligament -f\n";
    for (const OptionWords& option : program.options) write_option(out, option, "test -z \"$(__ligament_command)\"");
    for (const CommandWords& command : program.commands) {
        out << "complete -c ligament -n 'test -z \"$(__ligament_command)\"' -f -a " << command.name << " -d "
            << in_quotes(command.summary) << '\n';
        for (const OptionWords& option : command.options) write_option(out, option, "__ligament_in " + command.name);
        for (std::size_t place = 1; place <= command.arguments.size(); ++place) write_argument(out, command, place);
    }
}

}  // namespace ligament::cli
