#include "terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <charconv>
#include <cstdlib>
#include <cstring>

namespace ligament::cli {

namespace {

bool is_set(const char* variable) {
    const char* value = std::getenv(variable);
    return value != nullptr && *value != '\0';
}

unsigned width_for(const Output& output) {
    winsize size{};
    if (output.is_terminal() && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
    unsigned columns = 0;
    if (const char* text = std::getenv("COLUMNS")) {
        const char* end = text + std::strlen(text);
        const auto [stop, error] = std::from_chars(text, end, columns);
        if (error == std::errc{} && stop == end && columns > 0) return columns;
    }
    return 80;
}

}  // namespace

void add_colour_option(CLI::App& app, std::string& colour) {
    app.add_option("--colour,--color", colour, "colour the text: auto, always or never")
        ->check(CLI::IsMember({"auto", "always", "never"}))
        ->capture_default_str()
        ->type_name("WHEN");
}

TextStyle style_for(const Output& output, const std::string& colour) {
    TextStyle style;
    style.width = width_for(output);
    const char* terminal = std::getenv("TERM");
    const bool dumb = terminal != nullptr && std::strcmp(terminal, "dumb") == 0;
    style.colour = colour == "always" || (colour == "auto" && output.is_terminal() && !dumb && !is_set("NO_COLOR"));
    return style;
}

std::string heading(const std::string& text, const TextStyle& style) {
    return style.colour ? "\x1b[1m" + text + "\x1b[0m" : text;
}

}  // namespace ligament::cli
