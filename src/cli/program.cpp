#include "program.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <iostream>
#include <new>
#include <stdexcept>

#include "build_app.hpp"
#include "input.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "status.hpp"
#include "stop.hpp"

namespace ligament::cli {

namespace {

// A file opened later must never get the number of a standard stream that the caller closed: messages would land in it.
// Read-only, so that writing to a closed stream is still the error that it should be.
void occupy_standard_streams() {
    for (int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        if (fcntl(stream, F_GETFD) == -1 && open("/dev/null", O_RDONLY) == -1) std::_Exit(broken);
}

void say(std::string_view message) { std::cerr << "ligament: " << printable(message) << '\n'; }

bool is_command(std::string_view name) {
    const auto commands = all_commands();
    return std::any_of(commands.begin(), commands.end(), [&](const Command& command) { return command.name == name; });
}

void say_unknown_command(std::string_view name) {
    std::vector<std::string_view> known;
    for (const Command& command : all_commands()) known.emplace_back(command.name);
    say("unknown command \"" + std::string(name) + '"' + nearest_words(name, known));
    std::cerr << "see: ligament --help\n";
}

int print(const std::string& text) {
    Output output;
    output.stream() << text;
    output.commit();
    return fine;
}

// Arguments that no option or command took. The option that was meant is named where one is near.
std::string unexpected_words(const CLI::App& app, const std::string& argument) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    const std::vector<std::string_view> known(names.begin(), names.end());
    const std::string kind = argument.starts_with('-') ? "unknown option \"" : "unexpected argument \"";
    return kind + argument + '"' + nearest_words(argument, known);
}

int say_usage_error(const CLI::App& app, const CLI::Error& error) {
    const bool has_command = !app.get_subcommands().empty();
    const CLI::App& called = has_command ? *app.get_subcommands().front() : app;
    const std::vector<std::string> left = app.remaining(true);
    std::string message = error.what();
    if (!left.empty())
        message = unexpected_words(called, left.front());
    else if (!has_command)
        message = "a command is wanted";
    say(message);
    std::cerr << "see: ligament" << (has_command ? " " + called.get_name() : "") << " --help\n";
    return unusable;
}

int run(int argc, char** argv) {
    const std::string_view first = argc > 1 ? argv[1] : "";
    if (!first.empty() && first[0] != '-' && !is_command(first)) {
        say_unknown_command(first);
        return unusable;
    }
    Program program(is_command(first) ? first : std::string_view());
    CLI::App& app = program.app;
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        return print(app.help());
    } catch (const CLI::CallForVersion& version_call) {
        return print(std::string(version_call.what()) + "\n");
    } catch (const CLI::Error& error) {
        return say_usage_error(app, error);
    }
    for (std::size_t i = 0; i < program.commands.size(); ++i) {
        const auto& [sub, run_command] = program.commands[i];
        if (!sub->parsed()) continue;
        keep_limits(all_commands()[i].is_lasting ? program.limits_of_lasting : program.limits);
        return run_command();
    }
    return broken;
}

}  // namespace

int run_program(int argc, char** argv) noexcept {
    try {
        occupy_standard_streams();
        // A reader that went away and a file that may not grow are errors of writing, and said as such.
        std::signal(SIGPIPE, SIG_IGN);
        std::signal(SIGXFSZ, SIG_IGN);
        heed_stops();
        return run(argc, argv);
    } catch (const Unusable& reason) {
        if (*reason.what()) say(reason.what());
        return unusable;
    } catch (const std::bad_alloc&) {
        stop_for_memory();
    } catch (const std::length_error&) {  // more than any memory can hold
        stop_for_memory();
    } catch (const std::exception& fault) {
        say(std::string("a fault of the program's own: ") + fault.what());
    } catch (...) {
        say("a fault of the program's own");
    }
    return broken;
}

}  // namespace ligament::cli
