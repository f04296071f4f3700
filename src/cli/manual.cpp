// `ligament manual`: what is the program, on one page of the manual?
#include <algorithm>
#include <sstream>

#include "build_app.hpp"
#include "grammar.hpp"
#include "ligament/version.hpp"
#include "output.hpp"
#include "status.hpp"

namespace ligament::cli {

Run add_manual(CLI::App& app);

namespace {

constexpr std::string_view about =
    "reads a description of a character rig (bones, parents, constraints, drivers), or a glTF or VRM file, turns it into a "
    "directed dependency graph and says where the rig is circular and where to cut it for the least loss, in which order it can "
    "be evaluated and what waits for what, which deform bones are not attached at which stop of which switch, and what each "
    "switch fans out to. It draws the whole as pages of SVG, one question a page, and as one HTML page to explore.";

// As the README has it; a test holds the two together.
constexpr std::string_view caution =
    "Where a rig drives something that moves in the real world (animatronics, a puppet, a robot arm), people can be hurt. "
    "ligament proves nothing about safe motion: a rig without findings can still command a dangerous one. The machine's risk "
    "assessment, local codes and licensed practice decide.";

/// Text of roff: no escapes, no minus sign that becomes a hyphen.
std::string roff(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\\')
            out += "\\e";
        else if (c == '-')
            out += "\\-";
        else
            out += c;
    }
    return out;
}

/// The same as a line of its own, which must not be taken for a request.
std::string line(std::string_view text) {
    const bool is_request = text.starts_with('.') || text.starts_with('\'');
    return (is_request ? "\\&" : "") + roff(text) + '\n';
}

std::string bold(std::string_view text) { return "\\fB" + roff(text) + "\\fR"; }
std::string italic(std::string_view text) { return "\\fI" + roff(text) + "\\fR"; }

/// Lines of a help text, each below the other.
void write_help(std::ostream& out, const OptionWords& option) {
    std::istringstream lines(option.help);
    bool is_first = true;
    for (std::string text; std::getline(lines, text); is_first = false) out << (is_first ? "" : ".br\n") << line(text);
    std::string more;
    if (!option.value.choices.empty()) {
        for (const std::string& choice : option.value.choices) more += (more.empty() ? "" : ", ") + choice;
        more = "one of " + more;
    }
    if (!option.fallback.empty()) more += (more.empty() ? "" : "; ") + option.fallback + " if not given";
    if (!option.relations.empty()) more += (more.empty() ? "" : "; ") + option.relations;
    if (!more.empty()) out << ".br\n" << line("(" + more + ")");
}

void write_option(std::ostream& out, const OptionWords& option) {
    out << ".TP\n";
    for (std::size_t i = 0; i < option.names.size(); ++i) out << (i > 0 ? ", " : "") << bold(option.names[i]);
    if (option.names.empty())
        out << italic(option.value.name);
    else if (option.value.kind != ValueWords::Kind::none)
        out << ' ' << italic(option.value.name);
    out << '\n';
    write_help(out, option);
}

void write_call(std::ostream& out, const ProgramWords& program, const CommandWords& command) {
    out << bold(program.name + ' ' + command.name) << " [" << italic("OPTION") << "...]";
    for (const OptionWords& option : command.options)
        if (option.is_required) out << ' ' << bold(option.names.front()) << ' ' << italic(option.value.name);
    for (const OptionWords& argument : command.arguments) {
        const std::string name = italic(argument.value.name) + (argument.may_repeat ? "..." : "");
        out << ' ' << (argument.is_required ? name : "[" + name + "]");
    }
    out << '\n';
}

/// Examples, which are indented, stand as they are; the other lines are text.
void write_footer(std::ostream& out, const std::string& footer) {
    std::istringstream lines(footer);
    bool is_example = false, begins = true;
    for (std::string text; std::getline(lines, text);) {
        const bool indented = text.starts_with("  ");
        if (is_example && !indented) out << ".fi\n.RE\n";
        if (!is_example && indented) out << ".RS\n.nf\n";
        if (!indented && !text.empty()) out << (begins || is_example ? ".PP\n" : "") << line(text);
        if (indented) out << line(text.substr(2));
        begins = text.empty();
        is_example = indented;
    }
    if (is_example) out << ".fi\n.RE\n";
}

std::string key_of(const OptionWords& option) {
    std::string key = option.help + '\n' + option.fallback;
    for (const std::string& name : option.names) key += '\n' + name;
    return key;
}

/// Options that every command has: told once.
bool is_common(const ProgramWords& program, const OptionWords& option) {
    return std::all_of(program.commands.begin(), program.commands.end(), [&](const CommandWords& command) {
        return std::any_of(command.options.begin(), command.options.end(),
                           [&](const OptionWords& one) { return key_of(one) == key_of(option); });
    });
}

void write_commands(std::ostream& out, const ProgramWords& program) {
    out << ".SH COMMANDS\n";
    for (const CommandWords& command : program.commands) {
        out << ".SS " << roff(command.name) << '\n' << line(command.summary) << ".PP\n";
        write_call(out, program, command);
        for (const OptionWords& argument : command.arguments) write_option(out, argument);
        for (const OptionWords& option : command.options)
            if (!is_common(program, option)) write_option(out, option);
        write_footer(out, command.footer);
    }
    out << ".SH OPTIONS\nEvery command has these:\n";
    for (const OptionWords& option : program.commands.front().options)
        if (is_common(program, option)) write_option(out, option);
    out << ".PP\nThe program itself has these:\n";
    for (const OptionWords& option : program.options) write_option(out, option);
}

void write_files(std::ostream& out) {
    out << ".SH FILES\n.TP\n";
    for (std::size_t i = 0; i < rig_suffixes.size(); ++i)
        out << (i > 0 ? ", " : "") << italic("*" + std::string(rig_suffixes[i]));
    out << "\nrigs: rig descriptions, glTF 2.0 and VRM files. What a file holds decides how it is read, not its name.\n.TP\n"
        << italic("ligament.rules.json")
        << "\nthe rules of a project: the nearest one in the folder of a rig or above it holds for it.\n.TP\n"
        << italic("NAME.XXXXXX")
        << "\nan output on its way, beside the file that it will become. Stays only where the program is killed outright.\n";
}

void write_manual(std::ostream& out, const ProgramWords& program) {
    // The date is left empty: the page says which version it is of, and is the same on every day.
    out << ".TH LIGAMENT 1 \"\" \"ligament " << version() << "\" \"User Commands\"\n.SH NAME\nligament \\- "
        << "dependency graphs of character rigs: cycles, order, attachment, drawings\n.SH SYNOPSIS\n.nf\n";
    for (const CommandWords& command : program.commands) write_call(out, program, command);
    out << ".fi\n.SH DESCRIPTION\n.B ligament\n" << line(about);
    write_commands(out, program);
    out << ".SH EXIT STATUS\n";
    for (const StatusWords& words : status_words)
        out << ".TP\n" << bold(std::to_string(words.status)) << '\n' << line(words.words);
    write_files(out);
    out << ".SH CAUTION\n" << line(caution);
}

}  // namespace

Run add_manual(CLI::App& app) {
    app.footer("Example:\n  ligament manual | man -l -");
    return [] {
        const Program program;
        Output output;
        write_manual(output.stream(), words_of(program.app));
        output.commit();
        return fine;
    };
}

}  // namespace ligament::cli
