// What changed between two revisions, for a program to read? Format "rig-comparison", version 1.
#include "comparison_names.hpp"
#include "json_rows.hpp"

namespace ligament {

namespace {

using namespace json_rows;

struct Writer {
    JsonOut& out;
    const ComparisonReport& report;
    const Comparison& comparison = report.comparison;

    const Rig& rig(bool before) const { return before ? report.before.rig : report.after.rig; }

    /// The name of a bone in a revision, or null.
    Row bone(BoneId id, bool before) const { return id == none ? Row(nullptr) : Row(rig(before).bones[id].name); }

    template <class Items, class Make>
    void rows(std::string_view key, const Items& items, std::size_t indent, Make make) {
        out << ",\n" << std::string(indent, ' ') << '"' << key << "\": ";
        write_rows(out, items.size(), indent, [&](std::size_t i) { out << text_of(make(items[i])); });
    }

    Row side_row(bool before) const {
        const Report& side = before ? report.before : report.after;
        return {{"rig", side.rig.name}, {"source", side.source}, {"bones", side.rig.bones.size()}};
    }

    static Row place_row(Place place) {
        return place.line == 0 ? Row(nullptr) : Row{{"line", place.line}, {"column", place.column}};
    }

    Row change_row(const Change& change) const {
        const char* word = change.is_added()       ? "added"
                           : change.is_removed()   ? "removed"
                           : !change.renamed       ? "changed"
                           : change.fields.empty() ? "renamed"
                                                   : "renamed and changed";
        Row row{{"element", name_of(change.element)}, {"change", word}};
        for (const bool before : {true, false}) {
            const bool there = (before ? change.before : change.after) != none;
            row[before ? "before" : "after"] = there ? Row(element_name(report, change, before)) : Row(nullptr);
        }
        if (change.renamed) row["certainty"] = change.certainty;
        Row fields = Row::array();
        for (const FieldChange& field : change.fields)
            fields.push_back({{"field", field.field},
                              {"before", field.before.empty() ? Row(nullptr) : Row(field.before)},
                              {"after", field.after.empty() ? Row(nullptr) : Row(field.after)}});
        row["fields"] = std::move(fields);
        row["at_before"] = place_row(element_place(report, change, true));
        row["at_after"] = place_row(element_place(report, change, false));
        return row;
    }

    Row states_row(const std::vector<Worse>& states, bool before) const {
        const Report& side = before ? report.before : report.after;
        Row row = Row::array();
        for (const Worse& worse : states)
            row.push_back({{"state", name_of(side.rig, side.facts.switches.switches, worse.settings)},
                           {"verdict", name_of(worse.verdict)}});
        return row;
    }

    Row verdict_row(const VerdictChange& change) const {
        return {{"before", bone(change.before, true)},
                {"after", bone(change.after, false)},
                {"was", change.was ? Row(name_of(*change.was)) : Row(nullptr)},
                {"is", change.is ? Row(name_of(*change.is)) : Row(nullptr)},
                {"lost_in", states_row(change.lost_in, false)},
                {"no_longer_lost_in", states_row(change.no_longer_in, true)},
                {"worse", change.is_worse},
                {"better", change.is_better}};
    }

    Row cycle_row(const CycleChange& change) const {
        Row row{{"change", name_of(change.how)}, {"worse", change.is_worse}};
        for (const bool before : {true, false}) {
            const std::uint32_t place = before ? change.before : change.after;
            const Report& side = before ? report.before : report.after;
            const char* key = before ? "before" : "after";
            row[key] = nullptr;
            if (place == none) continue;
            const Cycle& cycle = side.facts.cycles[place];
            Row properties = Row::array();
            for (const PropertyId property : cycle.properties) properties.push_back(side.rig.properties[property].name);
            row[key] = {{"cycle", place + 1}, {"grain", name_of(cycle.grain)}, {"bones", names_of(side.rig, cycle.bones)}};
            if (!properties.empty()) row[key]["properties"] = std::move(properties);
        }
        row["gained"] = names_of(report.after.rig, change.gained);
        row["lost"] = names_of(report.before.rig, change.lost);
        return row;
    }

    void write_order() {
        const OrderChange& order = comparison.order;
        out << ",\n  \"order\": {\"longest_chain\": " << text_of({{"before", order.chain_before}, {"after", order.chain_after}});
        rows("levels", order.levels, 4, [&](const LevelChange& change) {
            return Row{{"before", bone(change.before, true)},
                       {"after", bone(change.after, false)},
                       {"was", change.was},
                       {"is", change.is}};
        });
        rows("turned", order.turned, 4, [&](const Turned& pair) {
            return Row{{"before", {bone(pair.first, true), bone(pair.then, true)}},
                       {"after", {bone(pair.now_first, false), bone(pair.now_then, false)}}};
        });
        out << "\n  }";
    }

    void write_reach() {
        out << ",\n  \"reach\": {\"deform_bones_listed\": " << (comparison.deform_reach_listed ? "true" : "false")
            << ", \"other_bones_listed\": " << (comparison.other_reach_listed ? "true" : "false");
        rows("bones", comparison.reach, 4, [&](const ReachChange& change) {
            return Row{{"before", bone(change.before, true)},
                       {"after", bone(change.after, false)},
                       {"gained", names_of(report.after.rig, change.gained)},
                       {"lost", names_of(report.before.rig, change.lost)}};
        });
        out << "\n  }";
    }

    Row constraints_row(const std::vector<ConstraintId>& ids, const Report& side) const {
        Row row = Row::array();
        for (const ConstraintId id : ids) row.push_back(constraint_name(side.rig, side.dependencies, id));
        return row;
    }

    Row switch_row(const SwitchChange& change) const {
        return {{"before", change.before == none ? Row(nullptr) : Row(report.before.rig.properties[change.before].name)},
                {"after", change.after == none ? Row(nullptr) : Row(report.after.rig.properties[change.after].name)},
                {"gained", constraints_row(change.gained, report.after)},
                {"lost", constraints_row(change.lost, report.before)},
                {"stops_gained", change.stops_gained},
                {"stops_lost", change.stops_lost}};
    }

    static Row finding_row(const Report& side, std::size_t place) {
        const Finding& finding = side.findings[place];
        Row row{{"check", finding.check},
                {"severity", name_of(finding.severity)},
                {"message", finding.message},
                {"hint", finding.hint},
                {"bones", names_of(side.rig, finding.bones)}};
        if (!finding.subject.empty()) row["subject"] = finding.subject;
        row["line"] = finding.place.line, row["column"] = finding.place.column;
        return row;
    }

    void write() {
        const Worsened worse = worsened(report);
        out << "{\n  \"format\": \"rig-comparison\", \"version\": 1,\n  \"before\": " << text_of(side_row(true))
            << ",\n  \"after\": " << text_of(side_row(false)) << ",\n  \"same\": " << (comparison.is_same() ? "true" : "false")
            << ", \"worse\": "
            << text_of({{"any", worse.any()},
                        {"errors", worse.errors},
                        {"warnings", worse.warnings},
                        {"verdicts", worse.verdicts},
                        {"cycles", worse.cycles}});
        rows("changes", comparison.changes, 2, [&](const Change& change) { return change_row(change); });
        out << ",\n  \"moved_in_file\": " << comparison.moved_in_file << ",\n  \"dependences\": {\"grain\": \"bone\"";
        rows("added", comparison.links.added, 4, [&](const FoldedEdge& edge) { return edge_row(report.after, edge); });
        rows("removed", comparison.links.removed, 4, [&](const FoldedEdge& edge) { return edge_row(report.before, edge); });
        out << "\n  }";
        rows("verdicts", comparison.verdicts, 2, [&](const VerdictChange& change) { return verdict_row(change); });
        rows("cycles", comparison.cycles, 2, [&](const CycleChange& change) { return cycle_row(change); });
        write_order();
        write_reach();
        rows("switches", comparison.switches, 2, [&](const SwitchChange& change) { return switch_row(change); });
        out << ",\n  \"findings\": {\"counts\": "
            << text_of({{"new", report.findings.added.size()}, {"gone", report.findings.gone.size()}});
        rows("new", report.findings.added, 4, [&](std::size_t place) { return finding_row(report.after, place); });
        rows("gone", report.findings.gone, 4, [&](std::size_t place) { return finding_row(report.before, place); });
        out << "\n  }\n}\n";
    }
};

}  // namespace

void write_comparison_json(std::ostream& stream, const ComparisonReport& report) {
    JsonOut out(stream);
    Writer{out, report}.write();
    out.finish();
}

}  // namespace ligament
