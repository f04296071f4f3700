// `ligament cycles`: what is circular, where is it cut best, and by which ways does it close?
#include <memory>

#include "commands.hpp"
#include "cut_options.hpp"
#include "input.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_cycles(CLI::App& app);

namespace {

struct Options {
    std::string rig, format = "text", colour = "auto";
    std::vector<std::string> cut_costs, state;
    std::size_t circuits = 0;
    InputOptions input;
};

/// Names of a long list are shown in part.
constexpr std::size_t names_shown = 40;

std::string names_text(const Rig& rig, const std::vector<BoneId>& bones) {
    std::string text;
    for (std::size_t i = 0; i < bones.size() && i < names_shown; ++i)
        text += (i > 0 ? ", " : "") + printable(rig.bones[bones[i]].name);
    if (bones.size() > names_shown)
        text += " (showing " + std::to_string(names_shown) + " of " + std::to_string(bones.size()) + ")";
    return text;
}

std::string members_text(const Rig& rig, const Cycle& cycle) {
    if (!cycle.bones.empty()) return names_text(rig, cycle.bones);
    std::string text;
    for (std::size_t i = 0; i < cycle.properties.size() && i < names_shown; ++i)
        text += (i > 0 ? ", property " : "property ") + printable(rig.properties[cycle.properties[i]].name);
    if (cycle.properties.size() > names_shown)
        text += " (showing " + std::to_string(names_shown) + " of " + std::to_string(cycle.properties.size()) + ")";
    return text;
}

std::string_view reality_of(Grain grain) {
    switch (grain) {
        case Grain::channel:
            return "real in any host";
        case Grain::step:
            return "real in hosts that compute whole transforms";
        case Grain::bone:
            break;
    }
    return "real only in hosts that evaluate bone by bone";
}

void write_cycle(std::ostream& out, const Report& report, std::size_t index, const TextStyle& style) {
    const Cycle& cycle = report.facts.cycles[index];
    out << '\n'
        << heading("cycle " + std::to_string(index + 1) + ", at " + std::string(name_of(cycle.grain)) + " grain", style) << ": "
        << reality_of(cycle.grain) << '\n';
    const std::size_t members = cycle.bones.empty() ? cycle.properties.size() : cycle.bones.size();
    out << wrapped(members_text(report.rig, cycle) + (members == 1 ? " needs itself" : " need each other"), 2, style.width);
    if (cycle.cores.size() > 1)
        for (const std::vector<BoneId>& core : cycle.cores)
            out << wrapped("a loop of its own: " + names_text(report.rig, core), 2, style.width);
    out << "  " << (cycle.witness_is_shortest ? "a shortest loop" : "a short loop") << ":\n";
    write_cycle_text(out, report, index, style, 4);
}

void write_cycles_text(std::ostream& out, const Report& report, const TextStyle& style) {
    out << printable(report.rig.name) << " (" << printable(report.source)
        << "): " << counted_text(report.rig.bones.size(), "bone") << ", " << counted_text(report.facts.cycles.size(), "cycle")
        << (report.facts.is_default_state ? "" : ", in state " + printable(report.facts.state_name)) << '\n';
    for (std::size_t i = 0; i < report.facts.cycles.size(); ++i) write_cycle(out, report, i, style);
}

int show_cycles(const Options& options) {
    read_cut_costs(options.cut_costs);  // before the rig is read: what is wrong with the call goes first
    const auto [rig, rules] = load_rig(options.rig, options.input);
    const CutCosts costs = read_cut_costs(options.cut_costs, rules.costs);
    const FactOptions wanted = read_state(rig, options.rig, options.state);
    const Dependencies dependencies = dependencies_for(rig, wanted, /*overrides=*/false);
    Facts facts;
    facts.state_name = wanted.state_name;
    facts.is_default_state = !wanted.state;
    facts.cycles = find_cycles(rig, dependencies);
    facts.cuts = find_cuts(rig, dependencies, facts.cycles, costs, wanted.state ? *wanted.state : default_state(rig));
    if (!wanted.state) {
        facts.switches = find_switch_facts(rig, dependencies, facts.cycles);
        tell_losses_where_closed(rig, dependencies, facts);
    }
    expect_cuts_hold(facts.cuts);
    if (options.circuits > 0) facts.circuits = find_circuits(rig, dependencies, facts.cycles, options.circuits);
    const std::vector<Finding> no_findings;
    const Report report{options.rig, rig, dependencies, facts, no_findings};
    Output output;
    if (options.format == "json")
        write_cycles_json(output.stream(), report);
    else
        write_cycles_text(output.stream(), report, style_for(output, options.colour));
    output.commit();
    return fine;
}

}  // namespace

Run add_cycles(CLI::App& app) {
    auto options = std::make_shared<Options>();
    add_rig(app, options->rig, options->input);
    app.add_option("--format", options->format, "text for people, json for programs")
        ->check(CLI::IsMember({"text", "json"}))
        ->capture_default_str()
        ->type_name("FORMAT");
    add_state_option(app, options->state);
    add_cut_costs(app, options->cut_costs);
    add_circuits(app, options->circuits);
    add_colour_option(app, options->colour);
    app.footer(
        "The cheapest cut of a cycle is the set of makers (drivers, constraints, solvers, parent links, what objects follow) "
        "that "
        "costs least to give up and leaves no cycle.\n\nExamples:\n  ligament cycles heron.rig.json --circuits 10\n  ligament "
        "cycles heron.rig.json --cut-cost constraint=5 --cut-cost driver=3");
    return [options] { return show_cycles(*options); };
}

}  // namespace ligament::cli
