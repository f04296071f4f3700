// `ligament checks`: what is looked for, and why?
#include <memory>

#include "commands.hpp"
#include "input.hpp"
#include "ligament/checks.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "status.hpp"
#include "table.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_checks(CLI::App& app);

namespace {

struct Options {
    std::string check, colour = "auto";
};

void write_overview(std::ostream& out) {
    std::vector<std::vector<std::string>> rows{{"check", "severity", "says"}};
    for (const Check& check : all_checks())
        rows.push_back({std::string(check.name), std::string(name_of(check.severity)), std::string(check.summary)});
    write_table(out, rows, 0);
}

const Check& check_named(const std::string& name) {
    std::vector<std::string_view> known;
    for (const Check& check : all_checks()) {
        if (check.name == name) return check;
        known.push_back(check.name);
    }
    throw Unusable("unknown check \"" + name + '"' + nearest_words(name, known));
}

int show_checks(const Options& options) {
    Output output;
    if (options.check.empty()) {
        write_overview(output.stream());
    } else {
        const Check& check = check_named(options.check);
        const TextStyle style = style_for(output, options.colour);
        output.stream() << heading(std::string(check.name), style) << " (" << name_of(check.severity) << "): " << check.summary
                        << "\n\n"
                        << wrapped(check.what, 0, style.width) << wrapped(check.harm, 0, style.width)
                        << wrapped(check.mend, 0, style.width);
    }
    output.commit();
    return fine;
}

}  // namespace

Run add_checks(CLI::App& app) {
    auto options = std::make_shared<Options>();
    app.add_option("CHECK", options->check, "explain this check: what it finds, why it hurts, how to mend it")->type_name("");
    add_colour_option(app, options->colour);
    app.footer("Examples:\n  ligament checks\n  ligament checks deform-orphaned");
    return [options] { return show_checks(*options); };
}

}  // namespace ligament::cli
