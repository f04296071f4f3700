#include "build_app.hpp"

#include "ligament/version.hpp"
#include "status.hpp"

namespace ligament::cli {

namespace {

/// "Exit status: 0 nothing ..., 1 something,\n2 the input ..., 3 ...".
std::string statuses() {
    std::string text = "Exit status: ";
    for (const StatusWords& words : status_words) {
        if (words.status > fine) text += words.status == unusable ? ",\n" : ", ";
        text.append(std::to_string(words.status)).append(" ").append(words.words);
    }
    return text + ".";
}

}  // namespace

Program::Program(std::string_view only)
    : app("Dependency graphs of character rigs: what is circular, in which order bones can be evaluated,\n"
          "which deform bones are attached to no control, and what moves what.",
          "ligament") {
    app.set_version_flag("--version", "ligament " + std::string(version()), "print the version and exit");
    app.set_help_flag("-h,--help", "print this help and exit");
    app.require_subcommand(1);
    app.get_formatter()->column_width(28);
    app.get_formatter()->label("REQUIRED", "");
    app.footer("Example:\n  ligament check heron.rig.json\n\n" + statuses());
    for (const Command& command : all_commands()) {
        CLI::App* sub = app.add_subcommand(command.name, command.summary);
        if (!only.empty() && only != command.name) {
            commands.emplace_back(sub, Run());
            continue;
        }
        commands.emplace_back(sub, command.add(*sub));
        add_limits(*sub, command.is_lasting ? limits_of_lasting : limits);
    }
}

}  // namespace ligament::cli
