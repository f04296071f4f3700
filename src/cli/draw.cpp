// `ligament draw`: how does it look?
#include <cmath>
#include <iostream>
#include <memory>

#include "commands.hpp"
#include "input.hpp"
#include "ligament/drawing.hpp"
#include "ligament/report.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"

namespace ligament::cli {

Run add_draw(CLI::App& app);

namespace {

struct Options {
    std::string rig, output, around;
    unsigned hops = 2;
    double time_limit = 20;
    std::vector<std::string> state;
};

BoneId bone_named(const Options& options, const Rig& rig) {
    const BoneId id = find_bone(rig, options.around);
    if (id != none) return id;
    std::vector<std::string_view> known;
    for (const Bone& bone : rig.bones) known.emplace_back(bone.name);
    throw Unusable(options.rig + ": unknown bone \"" + options.around + '"' + nearest_words(options.around, known));
}

/// The dependencies in a state, what is replaced there switched off. On the bones of cycles it is kept: a host computes it all
/// the same, and a loop that is drawn has to close.
Dependencies dependencies_to_draw(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const State& state) {
    const Dependencies computed = dependencies_in(rig, dependencies, state, /*overrides=*/false);
    std::vector<std::uint8_t> is_in_cycle(rig.bones.size(), 0);
    for (const Cycle& cycle : facts.cycles)
        for (BoneId bone : cycle.bones) is_in_cycle[bone] = 1;
    Dependencies shown = dependencies_in(rig, dependencies, state, /*overrides=*/true);
    for (std::size_t g = 0; g < computed.gates.size(); ++g) {
        const ConstraintId gating = shown.gates[g].constraint;
        if (gating != none && is_in_cycle[shown.constraints[gating].bone]) shown.gates[g].off = computed.gates[g].off;
    }
    return shown;
}

int draw_rig(const Options& options) {
    const Rig rig = load_rig(options.rig);
    DrawingOptions drawing_options;
    drawing_options.hops = options.hops;
    drawing_options.time_limit = std::chrono::milliseconds(std::llround(options.time_limit * 1000));
    if (!options.around.empty()) drawing_options.around = bone_named(options, rig);
    const FactOptions fact_options = read_state(rig, options.rig, options.state);
    Output output(options.output);  // before the layout, which may take its time, for nothing if there is nowhere to write
    Dependencies dependencies = build_dependencies(rig);
    const Facts facts = find_facts(rig, dependencies, fact_options);
    if (fact_options.state) dependencies = dependencies_to_draw(rig, dependencies, facts, *fact_options.state);
    const Drawing drawing = draw(rig, dependencies, facts, drawing_options);
    if (!drawing.error.empty()) throw std::runtime_error("no drawing of " + options.rig + ": " + drawing.error);
    output.stream() << drawing.svg;
    output.commit();
    if (!drawing.notice.empty()) std::cerr << printable(options.rig) << ": " << printable(drawing.notice) << '\n';
    return fine;
}

}  // namespace

Run add_draw(CLI::App& app) {
    auto options = std::make_shared<Options>();
    app.add_option("RIG", options->rig, rig_help)->required()->type_name("");
    app.add_option("-o,--output", options->output, "the SVG file to write, - for standard output")->required()->type_name("FILE");
    CLI::Option* around =
        app.add_option("--around", options->around, "draw only the neighbourhood of this bone")->type_name("BONE");
    app.add_option("--hops", options->hops, "how many dependencies the neighbourhood goes")
        ->needs(around)
        ->check(whole_number())
        ->capture_default_str()
        ->type_name("N");
    app.add_option("--time-limit", options->time_limit, "past it the groups are drawn as single boxes")
        ->check(seconds())
        ->capture_default_str()
        ->type_name("SECONDS");
    add_state_option(app, options->state);
    app.footer(
        "Examples:\n  ligament draw heron.rig.json -o heron.svg\n  ligament draw heron.rig.json -o wing.svg --around wing_arm_l "
        "--hops 3\n  ligament draw heron.rig.json -o fk.svg --state wing_mode_l=fk");
    return [options] { return draw_rig(*options); };
}

}  // namespace ligament::cli
