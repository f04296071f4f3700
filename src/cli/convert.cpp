// `ligament convert`: what was read of a rig, as a rig description.
#include <memory>

#include "commands.hpp"
#include "input.hpp"
#include "output.hpp"
#include "status.hpp"

namespace ligament::cli {

Run add_convert(CLI::App& app);

namespace {

struct Options {
    std::string rig, output = "-";
    InputOptions input;
};

int convert(const Options& options) {
    const Rig rig = load_rig(options.rig, options.input).rig;
    Output output(options.output);
    output.stream() << write_rig(rig);
    output.commit();
    return fine;
}

}  // namespace

Run add_convert(CLI::App& app) {
    auto options = std::make_shared<Options>();
    app.add_option("RIG", options->rig, rig_help)->required()->type_name("");
    add_controls_option(app, options->input);
    options->input.no_rules = true;  // what was read, not what a project makes of it
    app.add_option("-o,--output", options->output, "write to this file instead of standard output")->type_name("FILE");
    app.footer(
        "The rig description that comes out gives the same verdicts as what went in; meshes and materials are not in it.\n\n"
        "Example:\n  ligament convert heron.gltf -o heron.rig.json");
    return [options] { return convert(*options); };
}

}  // namespace ligament::cli
