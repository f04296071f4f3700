// `ligament states`: as each switch stands, which controls move which deform bones?
#include <memory>

#include "commands.hpp"
#include "input.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_states(CLI::App& app);

namespace {

struct Options {
    std::string rig, format = "text", output = "-", colour = "auto";
    std::vector<std::string> state;
    InputOptions input;
};

int show_states(const Options& options) {
    Rig rig = load_rig(options.rig, options.input).rig;
    const FactOptions wanted = read_state(rig, options.rig, options.state);
    // In a state that is asked for, its values take the place of the defaults.
    if (wanted.state)
        for (PropertyId p = 0; p < rig.properties.size(); ++p) rig.properties[p].initial = wanted.state->properties[p];
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Switch> switches = find_switches(rig, dependencies);
    const std::vector<StateTable> tables = find_state_tables(rig, dependencies);
    const StatesReport report{options.rig, rig, switches, tables, wanted.state ? wanted.state_name : ""};
    Output output(options.output);
    if (options.format == "json")
        write_states_json(output.stream(), report);
    else if (options.format == "markdown")
        write_states_markdown(output.stream(), report);
    else
        write_states_text(output.stream(), report, style_for(output, options.colour));
    output.commit();
    return fine;
}

}  // namespace

Run add_states(CLI::App& app) {
    auto options = std::make_shared<Options>();
    add_rig(app, options->rig, options->input);
    app.add_option("--format", options->format, "text for people, markdown to be pasted into a document, json for programs")
        ->check(CLI::IsMember({"text", "markdown", "json"}))
        ->capture_default_str()
        ->type_name("FORMAT");
    app.add_option("-o,--output", options->output, "write to this file instead of standard output")->type_name("FILE");
    add_state_option(app, options->state);
    add_colour_option(app, options->colour);
    app.footer(
        "One table a limb (a group of bones): which controls move which of its deform bones, at each stop of each switch "
        "that\nchanges it, the other switches at their default. `ligament check` looks at combinations of switches, too.\n\n"
        "Examples:\n  ligament states heron.rig.json\n  ligament states heron.rig.json --format markdown -o hand_over.md");
    return [options] { return show_states(*options); };
}

}  // namespace ligament::cli
