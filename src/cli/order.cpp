// `ligament order`: in which order can bones be evaluated?
#include <memory>

#include "commands.hpp"
#include "input.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "status.hpp"
#include "table.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_order(CLI::App& app);

namespace {

struct Options {
    std::string rig, format = "text", colour = "auto";
};

std::string names_text(const Rig& rig, const std::vector<BoneId>& bones) {
    std::string text;
    for (BoneId bone : bones) text += (text.empty() ? "" : ", ") + printable(rig.bones[bone].name);
    return text;
}

void write_cycles(std::ostream& out, const Report& report, const TextStyle& style) {
    for (const Cycle& cycle : report.facts.cycles)
        if (cycle.bones.size() > 1)
            out << wrapped("cycle: " + names_text(report.rig, cycle.bones) + " need each other; they share a level", 0,
                           style.width);
}

void write_longest_chain(std::ostream& out, const Report& report, const TextStyle& style) {
    const Order& order = report.facts.order;
    out << '\n' << heading("longest chain (" + counted_text(order.longest_chain.size(), "bone") + ")", style) << '\n';
    std::vector<std::vector<std::string>> rows;
    for (BoneId bone : order.longest_chain) rows.push_back({printable(report.rig.bones[bone].name)});
    for (std::size_t i = 0; i < order.longest_chain_edges.size() && i + 1 < rows.size(); ++i) {
        const FoldedEdge& edge = order.longest_chain_edges[i];
        rows[i + 1].push_back(edge_text(report.rig, report.dependencies, edge));
        rows[i + 1].push_back(place_text(report.source, place_of(report.rig, report.dependencies, edge.maker)));
    }
    write_table(out, rows, 2);
}

void write_order_text(std::ostream& out, const Report& report, const TextStyle& style) {
    const Order& order = report.facts.order;
    out << printable(report.rig.name) << " (" << printable(report.source)
        << "): " << counted_text(report.rig.bones.size(), "bone") << " in " << counted_text(order.levels.size(), "level")
        << ", at bone grain\n";
    write_cycles(out, report, style);
    for (std::size_t i = 0; i < order.levels.size(); ++i) {
        out << '\n'
            << heading("level " + std::to_string(i + 1) + " (" + counted_text(order.levels[i].size(), "bone") + ")", style)
            << '\n';
        out << wrapped(names_text(report.rig, order.levels[i]), 2, style.width);
    }
    write_longest_chain(out, report, style);
    out << '\n' << heading("order", style) << '\n' << wrapped(names_text(report.rig, order.bones), 2, style.width);
}

int show_order(const Options& options) {
    const Rig rig = load_rig(options.rig);
    const Dependencies dependencies = build_dependencies(rig);
    Facts facts;
    facts.cycles = find_cycles(rig, dependencies);
    facts.order = find_order(rig, dependencies);
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
    app.add_option("RIG", options->rig, rig_help)->required()->type_name("");
    app.add_option("--format", options->format, "text for people, json for programs")
        ->check(CLI::IsMember({"text", "json"}))
        ->capture_default_str()
        ->type_name("FORMAT");
    add_colour_option(app, options->colour);
    app.footer(
        "Levels hold bones that do not need each other; a level needs earlier ones only.\n\nExample:\n  ligament order "
        "heron.rig.json");
    return [options] { return show_order(*options); };
}

}  // namespace ligament::cli
