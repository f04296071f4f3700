// What does a person get to read about one cycle? Its edges, where to cut it and what that costs, and its circuits.
#include <algorithm>
#include <ostream>
#include <span>
#include <utility>

#include "formats.hpp"
#include "loss_groups.hpp"

namespace ligament {

namespace {

// Lists longer than these are shown in part; the JSON report has all of them.
constexpr std::size_t edges_shown = 40, makers_shown = 20, losses_shown = 8, states_shown = 8, names_shown = 12;

struct CycleText {
    std::ostream& out;
    const Report& report;
    const TextStyle& style;
    std::size_t indent;

    std::string margin(std::size_t more = 0) const { return std::string(indent + more, ' '); }
    std::string end_name(std::uint32_t id, bool between_properties) const {
        return printable(between_properties ? report.rig.properties[id].name : report.rig.bones[id].name);
    }
    std::string arrow(const FoldedEdge& edge, bool between_properties) const {
        if (edge.from == none || edge.to == none) return {};
        return end_name(edge.from, between_properties) + " -> " + end_name(edge.to, between_properties);
    }
    std::string place(const FoldedEdge& edge) const {
        return place_text(report.source, place_of(report.rig, report.dependencies, edge.maker));
    }
    /// Cells two spaces apart on one line, or on more where they are too wide for one.
    void write_cells(std::size_t more, const std::vector<std::string>& cells) const {
        std::size_t used = indent + more;
        out << margin(more);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const std::size_t columns = columns_of(cells[i]);
            if (i > 0 && used + 2 + columns > style.width) {
                out << '\n' << margin(more + 4);
                used = indent + more + 4;
            } else if (i > 0) {
                out << "  ";
                used += 2;
            }
            out << cells[i];
            used += columns;
        }
        out << '\n';
    }
    void showing(std::size_t more, std::size_t shown, std::size_t of, std::string_view noun) const {
        if (shown < of) out << margin(more) << "showing " << shown << " of " << of << ' ' << noun << '\n';
    }

    void write_witness(const Cycle& cycle) const {
        const std::size_t shown = std::min(cycle.witness.size(), edges_shown);
        for (std::size_t i = 0; i < shown; ++i)
            write_cells(0, {arrow(cycle.witness[i], cycle.is_between_properties()),
                            edge_text(report.rig, report.dependencies, cycle.witness[i]), place(cycle.witness[i])});
        showing(0, shown, cycle.witness.size(), "edges");
    }

    std::string names_text(const std::vector<BoneId>& bones) const {
        std::string text;
        const std::size_t shown = std::min(bones.size(), names_shown);
        for (std::size_t i = 0; i < shown; ++i) text += (i > 0 ? ", " : "") + printable(report.rig.bones[bones[i]].name);
        if (shown < bones.size()) text += " (showing " + std::to_string(shown) + " of " + std::to_string(bones.size()) + ")";
        return text;
    }

    /// Bones that lose the same controls stand together, in the order of their first.
    void write_losses(const Cut& cut, const Settings& in_state) const {
        if (!in_state.empty())
            out << wrapped("in state " + printable(name_of(report.rig, report.facts.switches.switches, in_state)) +
                               ", where the cycle is closed:",
                           indent + 2, style.width);
        const bool all = cut.deform_looked_at == cut.deform_behind;
        if (cut.loses.empty() && all) out << margin(2) << "no deform bone loses a control by it\n";
        const std::vector<LossGroup> groups = group_losses(cut);
        const std::size_t shown = std::min(groups.size(), losses_shown);
        for (std::size_t i = 0; i < shown; ++i) {
            const auto& [controls, bones] = groups[i];
            out << wrapped((bones.size() == 1 ? "deform bone " : "deform bones ") + names_text(bones) +
                               (bones.size() == 1 ? " loses " : " lose ") + names_text(controls),
                           indent + 2, style.width);
        }
        showing(2, shown, groups.size(), "groups of deform bones that lose controls");
        if (!all)
            out << wrapped("what is lost was looked at for " + std::to_string(cut.deform_looked_at) + " of " +
                               std::to_string(cut.deform_behind) + " deform bones behind the cut",
                           indent + 2, style.width);
    }

    static std::string cost_text(const Cut& cut) {
        std::string text = "cost " + std::to_string(cut.cost);
        if (!cut.is_exact) text += "; none costs less than " + std::to_string(cut.at_least);
        return text;
    }

    void write_cut(const Cut& cut, const std::string& title, const Settings& losses_in) const {
        out << wrapped(title + " (" + cost_text(cut) + "):", indent, style.width);
        const std::size_t shown = std::min(cut.makers.size(), makers_shown);
        for (std::size_t i = 0; i < shown; ++i) {
            const CutMaker& maker = cut.makers[i];
            std::vector<std::string> cells{edge_text(report.rig, report.dependencies, maker.edge),
                                           arrow(maker.edge, cut.between_properties), place(maker.edge)};
            if (cut.makers.size() > 1) cells.push_back("cost " + std::to_string(maker.cost));
            write_cells(2, cells);
        }
        showing(2, shown, cut.makers.size(), "makers");
        write_losses(cut, losses_in);
    }

    /// Nothing where it is left in every state.
    void write_states(std::size_t index) const {
        const SwitchFacts& switches = report.facts.switches;
        const std::vector<Settings>& live_in = switches.live_in[index];
        std::size_t states = 1;
        for (const Switch& each : switches.switches) states += each.stops.size();
        if (live_in.size() == states) return;
        std::string text;
        const std::size_t shown = std::min(live_in.size(), states_shown);
        for (std::size_t i = 0; i < shown; ++i)
            text += (i > 0 ? ", " : "") + printable(name_of(report.rig, switches.switches, live_in[i]));
        if (shown < live_in.size()) text += ", showing " + std::to_string(shown);
        if (live_in.empty())
            text = "open in all " + std::to_string(states) +
                   " states looked at: some weight on it is 0 in each; between the stops it may close";
        else
            text = "closed in " + std::to_string(live_in.size()) + " of " + std::to_string(states) + " states: " + text;
        out << wrapped(text, indent, style.width);
    }

    void write_circuits(const Circuits& circuits) const {
        const std::size_t shown = circuits.shortest.size();
        out << margin() << "circuits, showing " << shown << " of " << (circuits.is_all_counted ? "" : "at least ")
            << circuits.at_least << ":\n";
        for (std::size_t i = 0; i < shown; ++i) {
            const Circuit& circuit = circuits.shortest[i];
            const std::size_t edges = std::min(circuit.edges.size(), edges_shown);
            std::string path, makers;
            for (const FoldedEdge& edge : std::span(circuit.edges).first(edges)) {
                path += end_name(edge.from, circuit.between_properties) + " -> ";
                makers += (makers.empty() ? "" : ", ") + edge_text(report.rig, report.dependencies, edge);
            }
            if (edges < circuit.edges.size()) {
                path += "... -> ";
                makers += "; showing " + std::to_string(edges) + " of " + std::to_string(circuit.edges.size()) + " edges";
            }
            path += end_name(circuit.edges.front().from, circuit.between_properties);
            out << wrapped(std::to_string(i + 1) + ": " + path + " (" + makers + ")", indent + 2, style.width);
        }
    }
};

}  // namespace

void write_cycle_text(std::ostream& out, const Report& report, std::size_t index, const TextStyle& style, std::size_t indent) {
    const CycleText text{out, report, style, indent};
    const Cycle& cycle = report.facts.cycles[index];
    text.write_witness(cycle);
    if (index < report.facts.switches.live_in.size()) text.write_states(index);
    if (index < report.facts.cuts.size()) {
        const CycleCuts& cuts = report.facts.cuts[index];
        const Settings losses_in = index < report.facts.losses_in.size() ? report.facts.losses_in[index] : Settings{};
        std::string title = cuts.cut.is_exact ? "cheapest cut" : "cheapest cut that was found";
        if (cuts.finer || cycle.grain == Grain::bone) title += " at bone grain";
        text.write_cut(cuts.cut, title, losses_in);
        if (cuts.finer)
            text.write_cut(*cuts.finer, "at " + std::string(name_of(cycle.grain)) + " grain less is enough", losses_in);
    }
    if (index < report.facts.circuits.size()) text.write_circuits(report.facts.circuits[index]);
}

}  // namespace ligament
