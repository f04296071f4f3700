// `ligament order`: in which order can bones be evaluated?
#include <memory>

#include "commands.hpp"
#include "cut_options.hpp"
#include "input.hpp"
#include "ligament/report.hpp"
#include "numbers.hpp"
#include "order_text.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "step_costs.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_order(CLI::App& app);

namespace {

struct Options {
    std::string rig, format = "text", colour = "auto";
    std::vector<std::string> step_costs, state, cut_costs;
    std::vector<std::uint32_t> workers{usual_workers.begin(), usual_workers.end()};
    InputOptions input;
};

int show_order(const Options& options) {
    const StepCosts costs = read_step_costs(options.step_costs);
    read_cut_costs(options.cut_costs);  // before the rig is read: what is wrong with the call goes first
    const auto [rig, rules] = load_rig(options.rig, options.input);
    const CutCosts cut_costs = read_cut_costs(options.cut_costs, rules.costs);
    const FactOptions wanted = read_state(rig, options.rig, options.state);
    const Dependencies dependencies = dependencies_for(rig, wanted, /*overrides=*/false);
    Facts facts;
    facts.is_default_state = !wanted.state;
    facts.state_name = wanted.state_name;
    facts.cycles = find_cycles(rig, dependencies);
    facts.cuts = find_cuts(rig, dependencies, facts.cycles, cut_costs, wanted.state ? *wanted.state : default_state(rig));
    expect_cuts_hold(facts.cuts);
    facts.order = find_order(rig, dependencies);
    facts.after_cut = find_order_after_cuts(rig, dependencies, facts.cuts);
    facts.schedule = find_schedule(rig, dependencies, costs, options.workers);
    const std::vector<Finding> no_findings;
    const Report report{options.rig, rig, dependencies, facts, no_findings};
    Output output;
    if (options.format == "json")
        write_order_json(output.stream(), report);
    else
        write_order_text(output.stream(), report, style_for(output, options.colour));
    output.commit();
    return fine;
}

}  // namespace

Run add_order(CLI::App& app) {
    auto options = std::make_shared<Options>();
    add_rig(app, options->rig, options->input);
    app.add_option("--format", options->format, "text for people, json for programs")
        ->check(CLI::IsMember({"text", "json"}))
        ->capture_default_str()
        ->type_name("FORMAT");
    app.add_option("--step-cost", options->step_costs, "what each step of a kind costs; may be repeated")
        ->type_name("KIND=COST")
        ->allow_extra_args(false);
    app.add_option("--workers", options->workers,
                   "show the time on so many workers, 1 2 4 8 16 unless told otherwise; may be repeated")
        ->check(workers())
        ->type_name("N")
        ->allow_extra_args(false);
    add_state_option(app, options->state);
    add_cut_costs(app, options->cut_costs);
    add_colour_option(app, options->colour);
    app.footer(
        "Levels hold bones that do not need each other; a level needs earlier ones only. +N after a bone: it can start N\n"
        "later without making the whole take longer. Bones of one cycle are taken one after the other.\n"
        "Kinds of steps and what each costs unless told otherwise: bone 1, constraint, driver, solver, curve and object 0.\n\n"
        "Examples:\n  ligament order heron.rig.json\n"
        "  ligament order --step-cost constraint=0.5 --step-cost solver=4 --workers 3 heron.rig.json");
    return [options] { return show_order(*options); };
}

}  // namespace ligament::cli
