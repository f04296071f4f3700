// How does bash complete a call?
#include <ostream>

#include "shells.hpp"

namespace ligament::cli {

namespace {

// `|check --format|` names an option of a command. What bash cut apart at "=" is put together again first.
constexpr std::string_view helpers = R"bash(_ligament_words() {
    mapfile -t COMPREPLY < <(compgen -W "$1" -- "$word")
}

_ligament_files() {
    compopt -o filenames 2>/dev/null
    mapfile -t COMPREPLY < <(compgen -f -- "$word")
}

_ligament_rigs() {
    compopt -o filenames 2>/dev/null
    local suffix
    COMPREPLY=()
    while IFS= read -r suffix; do COMPREPLY+=("$suffix"); done < <(
        compgen -d -- "$word"
        for suffix in $rig_suffixes; do compgen -f -X "!*$suffix" -- "$word"; done
    )
}

)bash";

constexpr std::string_view head = R"bash(_ligament() {
    local words=() at=0 i
    for ((i = 0; i < ${#COMP_WORDS[@]}; ++i)); do
        [[ ${COMP_WORDS[i]} != "=" || $i -eq COMP_CWORD ]] && words+=("${COMP_WORDS[i]}")
        [[ $i -eq COMP_CWORD ]] && at=$((${#words[@]} - 1))
    done
    local word=${words[at]} command= first=1
    [[ $word == "=" ]] && word=
    for ((i = 1; i < at; ++i)); do
        [[ ${words[i]} == -* ]] && continue
        command=${words[i]} first=$((i + 1))
        break
    done
    COMPREPLY=()
)bash";

constexpr std::string_view tail = R"bash(    if [[ $word == -* ]]; then
        _ligament_words "$options"
        return
    fi
    local place=0
    for ((i = first; i < at; ++i)); do
        if [[ $valued == *" ${words[i]} "* ]]; then
            ((++i))
        elif [[ ${words[i]} != -?* ]]; then
            ((++place))
        fi
    done
    if ((place >= ${#arguments[@]})); then
        [[ -n $repeats ]] || return
        place=$((${#arguments[@]} - 1))
    fi
    case ${arguments[place]} in
    rigs) _ligament_rigs ;;
    files) _ligament_files ;;
    *) _ligament_words "${arguments[place]}" ;;
    esac
}

complete -F _ligament ligament
)bash";

std::string joined(const std::vector<std::string>& words, std::string_view between = " ") {
    std::string text;
    for (const std::string& word : words) text.append(text.empty() ? "" : between).append(word);
    return text;
}

std::string names_of(const std::vector<OptionWords>& options, bool valued_only) {
    std::string text;
    for (const OptionWords& option : options)
        if (!valued_only || option.value.kind != ValueWords::Kind::none)
            text.append(text.empty() ? "" : " ").append(joined(option.names));
    return text;
}

std::string action_of(const ValueWords& value) {
    switch (value.kind) {
        case ValueWords::Kind::choices:
            return "_ligament_words \"" + joined(value.choices) + '"';
        case ValueWords::Kind::files:
            return "_ligament_files";
        case ValueWords::Kind::rigs:
            return "_ligament_rigs";
        default:
            return ":";
    }
}

std::string argument_word(const ValueWords& value) {
    switch (value.kind) {
        case ValueWords::Kind::choices:
            return joined(value.choices);
        case ValueWords::Kind::files:
            return "files";
        case ValueWords::Kind::rigs:
            return "rigs";
        default:
            return "";
    }
}

void write_command(std::ostream& out, const CommandWords& command) {
    out << "    " << command.name << ")\n        options=\"" << names_of(command.options, false) << "\"\n        valued=\" "
        << names_of(command.options, true) << " \"\n        arguments=(";
    const char* before = "";
    for (const OptionWords& argument : command.arguments) {
        out << before << '"' << argument_word(argument.value) << '"';
        before = " ";
    }
    out << ")\n";
    if (!command.arguments.empty() && command.arguments.back().may_repeat) out << "        repeats=yes\n";
    out << "        case ${words[at - 1]} in\n";
    for (const OptionWords& option : command.options)
        if (option.value.kind != ValueWords::Kind::none)
            out << "        " << joined(option.names, " | ") << ") " << action_of(option.value) << "; return ;;\n";
    out << "        esac\n        ;;\n";
}

}  // namespace

void write_bash_completion(std::ostream& out, const ProgramWords& program) {
    std::vector<std::string> commands, suffixes(rig_suffixes.begin(), rig_suffixes.end());
    for (const CommandWords& command : program.commands) commands.push_back(command.name);
    out << "# Completes calls of " << program.name << " in bash. Made by: " << program.name << " completion bash\n\n"
        << helpers << head << "    local options= valued= repeats= arguments=() rig_suffixes=\"" << joined(suffixes)
        << "\"\n    case $command in\n    \"\")\n        options=\"" << names_of(program.options, false)
        << "\"\n        arguments=(\"" << joined(commands) << "\")\n        ;;\n";
    for (const CommandWords& command : program.commands) write_command(out, command);
    out << "    esac\n" << tail;
}

}  // namespace ligament::cli
