#include "cycle_rows.hpp"

#include "state_rows.hpp"

namespace ligament::json_rows {

namespace {

Row cut_row(const Report& report, const Cut& cut) {
    Row makers = Row::array();
    for (const CutMaker& maker : cut.makers) {
        Row row = edge_row(report, maker.edge, cut.between_properties);
        Row ordered;
        for (auto& [key, value] : row.items()) {
            if (key == "line") ordered["cost"] = maker.cost;
            ordered[key] = std::move(value);
        }
        makers.push_back(std::move(ordered));
    }
    return makers;
}

Row losses_row(const Report& report, const Cut& cut) {
    Row losses = Row::array();
    for (const CutLoss& loss : cut.loses)
        losses.push_back({{"bone", report.rig.bones[loss.bone].name}, {"controls", names_of(report.rig, loss.controls)}});
    return losses;
}

// `cut_at_least` stands only where the search stopped at its bound, and `cut_first` only where it stayed open whether another set
// of the same cost comes first; `cut_loses_looked_at` and `_of` only where not all deform bones behind the cut were looked at,
// `cut_loses_in` where losses are those in another state than the report's.
void add_cut(Row& row, const Report& report, std::size_t cycle, const Cut& cut) {
    row["cut"] = cut_row(report, cut);
    row["cut_cost"] = cut.cost;
    row["cut_exact"] = cut.is_exact;
    if (!cut.is_exact) row["cut_at_least"] = cut.at_least;
    if (cut.is_exact && !cut.is_first) row["cut_first"] = false;
    row["cut_loses"] = losses_row(report, cut);
    if (cycle < report.facts.losses_in.size() && !report.facts.losses_in[cycle].empty())
        row["cut_loses_in"] = name_of(report.rig, report.facts.switches.switches, report.facts.losses_in[cycle]);
    if (cut.deform_looked_at < cut.deform_behind) {
        row["cut_loses_looked_at"] = cut.deform_looked_at;
        row["cut_loses_of"] = cut.deform_behind;
    }
}

// There are `circuits_at_least` circuits, and no more where `circuits_counted`; those that are listed are the shortest.
void add_circuits(Row& row, const Report& report, const Circuits& circuits) {
    Row list = Row::array();
    for (const Circuit& circuit : circuits.shortest) {
        Row edges = Row::array();
        for (const FoldedEdge& edge : circuit.edges) edges.push_back(edge_row(report, edge, circuit.between_properties));
        list.push_back(std::move(edges));
    }
    row["circuits"] = std::move(list);
    row["circuits_at_least"] = circuits.at_least;
    row["circuits_counted"] = circuits.is_all_counted;
}

}  // namespace

// `witness_shortest` stands only where the search for the witness stopped early, `properties` only where the component has some,
// `finer_cut` only where less is enough at the grain of the cycle, `circuits` only where they were asked for.
Row cycle_row(const Report& report, std::size_t index) {
    const Cycle& cycle = report.facts.cycles[index];
    Row row{{"bones", names_of(report.rig, cycle.bones)}, {"grain", name_of(cycle.grain)}};
    Row witness = Row::array(), cores = Row::array();
    for (const FoldedEdge& edge : cycle.witness) witness.push_back(edge_row(report, edge, cycle.is_between_properties()));
    for (const std::vector<BoneId>& core : cycle.cores) cores.push_back(names_of(report.rig, core));
    row["witness"] = std::move(witness);
    if (!cycle.witness_is_shortest) row["witness_shortest"] = false;
    if (index < report.facts.cuts.size()) {
        const CycleCuts& cuts = report.facts.cuts[index];
        add_cut(row, report, index, cuts.cut);
        if (cuts.finer) {
            Row finer;
            add_cut(finer, report, index, *cuts.finer);
            row["finer_cut"] = std::move(finer);
        }
    }
    row["cores"] = std::move(cores);
    if (!cycle.properties.empty()) {
        Row properties = Row::array();
        for (PropertyId property : cycle.properties) properties.push_back(report.rig.properties[property].name);
        row["properties"] = std::move(properties);
    }
    if (index < report.facts.switches.live_in.size()) row["live_in"] = live_in_row(report, index);
    if (index < report.facts.circuits.size()) add_circuits(row, report, report.facts.circuits[index]);
    return row;
}

}  // namespace ligament::json_rows

namespace ligament {

void write_cycles_json(std::ostream& stream, const Report& report) {
    using namespace json_rows;
    JsonOut out(stream);
    write_head(out, "rig-cycles", report.rig, report.source, "state", state_or_any(report.facts));
    out << ",\n  \"cycles\": ";
    write_rows(out, report.facts.cycles.size(), 2, [&](std::size_t i) { out << text_of(cycle_row(report, i)); });
    out << "\n}\n";
    out.finish();
}

}  // namespace ligament
