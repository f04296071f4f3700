#include "data.hpp"

#include "page_rows.hpp"

namespace ligament {

namespace page_rows {

std::int64_t id_or_none(std::uint32_t id) { return id == none ? -1 : static_cast<std::int64_t>(id); }

Row ids(std::span<const std::uint32_t> ids) {
    Row row = Row::array();
    for (std::uint32_t id : ids) row.push_back(id_or_none(id));
    return row;
}

Row runs(std::span<const std::int64_t> values) {
    Row row = Row::array();
    for (std::size_t i = 0; i < values.size();) {
        std::size_t end = i + 1;
        while (end < values.size() && values[end] == values[i]) ++end;
        row.push_back(values[i]);
        row.push_back(end - i);
        i = end;
    }
    return row;
}

Row switches_row(const Rig& rig, std::span<const SwitchChoice> choices) {
    Row rows = Row::array();
    for (const SwitchChoice& choice : choices) {
        Row options = Row::array();
        for (const Stop& option : choice.options) options.push_back(Row::array({printable(option.name), option.value}));
        rows.push_back({{"property", choice.property},
                        {"on", id_or_none(rig.properties[choice.property].on)},
                        {"base", choice.base},
                        {"options", std::move(options)}});
    }
    return rows;
}

Row weights_row(std::span<const WeightTable> tables) {
    Row all = Row::array();
    for (const WeightTable& table : tables) {
        Row rows = Row::array();
        for (const WeightRow& row : table.rows) {
            Row numbers = Row::array({row.replaced});
            for (double weight : row.weights) numbers.push_back(weight);  // null where unknown
            rows.push_back(std::move(numbers));
        }
        all.push_back({{"constraint", table.constraint},
                       {"switches", ids(table.switches)},
                       {"rows", std::move(rows)},
                       {"row_of", ids(table.row_of)}});
        if (!table.is_whole) all.back()["one_at_a_time"] = true;
    }
    return all;
}

namespace {

Row settings_row(const Settings& settings) {
    Row row = Row::array();
    for (const Setting& setting : settings) row.push_back(Row::array({setting.switch_index, id_or_none(setting.stop)}));
    return row;
}

Row deform_row(const Facts& facts) {
    Row rows = Row::array();
    const bool has_worse = facts.is_default_state && facts.switches.worse.size() == facts.attachment.deform.size();
    for (std::size_t place = 0; place < facts.attachment.deform.size(); ++place) {
        const Attachment& attachment = facts.attachment.deform[place];
        Row row{{"bone", attachment.bone}, {"verdict", name_of(attachment.verdict)}};
        if (facts.attachment.controls_listed) row["controls"] = ids(attachment.controls);
        auto add = [&](const std::vector<Worse>& list) {
            for (const Worse& worse : list)
                row["worse"].push_back({{"settings", settings_row(worse.settings)},
                                        {"verdict", name_of(worse.verdict)},
                                        {"blamed", id_or_none(worse.blamed)}});
        };
        if (has_worse) {
            add(facts.switches.worse[place]);
            add(facts.switches.worse_yet[place]);
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

Row cycles_row(const Facts& facts) {
    Row rows = Row::array();
    for (const Cycle& cycle : facts.cycles) {
        Row witness = Row::array();
        for (const FoldedEdge& edge : cycle.witness) witness.push_back(Row::array({edge.from, edge.to, edge.maker}));
        rows.push_back({{"grain", name_of(cycle.grain)},
                        {"bones", ids(cycle.bones)},
                        {"properties", ids(cycle.properties)},
                        {"between_properties", cycle.is_between_properties()},
                        {"witness", std::move(witness)}});
    }
    return rows;
}

/// The cycle that a finding is about, or none: the one of its bones whose witness begins at its place.
std::uint32_t cycle_of(const Report& report, const Finding& finding) {
    if (!finding.check.starts_with("cycle")) return none;
    const std::vector<Cycle>& cycles = report.facts.cycles;
    for (std::uint32_t c = 0; c < cycles.size(); ++c)
        if (cycles[c].bones == finding.bones && !cycles[c].witness.empty() &&
            place_of(report.rig, report.dependencies, cycles[c].witness.front().maker) == finding.place)
            return c;
    return none;
}

Row findings_row(const Report& report) {
    Row rows = Row::array();
    for (const Finding& finding : report.findings) {
        Row row{{"check", finding.check},
                {"severity", name_of(finding.severity)},
                {"message", printable(finding.message)},
                {"hint", printable(finding.hint)},
                {"bones", ids(finding.bones)},
                {"place", Row::array({finding.place.line, finding.place.column})}};
        if (!finding.pointer.empty()) row["pointer"] = printable(finding.pointer);
        for (const Difference& difference : finding.differences)
            row["differences"].push_back(
                Row::array({printable(difference.what), printable(difference.left), printable(difference.right)}));
        if (!finding.subject.empty()) row["property"] = id_or_none(find_property(report.rig, finding.subject));
        if (const std::uint32_t cycle = cycle_of(report, finding); cycle != none) row["cycle"] = cycle;
        rows.push_back(std::move(row));
    }
    return rows;
}

Row order_row(const Facts& facts) {
    std::vector<std::int64_t> levels(facts.order.level.begin(), facts.order.level.end());
    return {{"bones", ids(facts.order.bones)},     {"level", runs(levels)},
            {"start", facts.schedule.start},       {"slack", facts.schedule.slack},
            {"blocked", ids(facts.order.blocked)}, {"chain", ids(facts.order.longest_chain)}};
}

Row fan_out_row(const Facts& facts) {
    Row rows = Row::array();
    for (const FanOut& f : facts.fan_out)
        rows.push_back(Row::array(
            {f.property, f.weights.size(), f.channels.size(), f.properties.size(), f.constraints.size(), f.bones_moved}));
    return rows;
}

Row tables_row(const std::vector<StateTable>& tables) {
    Row all = Row::array();
    for (const StateTable& table : tables) {
        Row rows = Row::array();
        for (const StateRow& row : table.rows)
            rows.push_back({{"settings", settings_row(row.settings)},
                            {"verdict", name_of(row.verdict)},
                            {"bones", ids(row.bones)},
                            {"controls", ids(row.controls)}});
        all.push_back({{"group", printable(table.group)},
                       {"shared", ids(table.shared)},
                       {"rows", std::move(rows)},
                       {"without_effect", ids(table.without_effect)}});
    }
    return all;
}

/// A text of a drawing, printable. Drawings set names apart by isolates (UAX #9), which a page does by markup.
std::string drawn_text(std::string text) {
    for (const std::string_view mark : {"\u2068", "\u2069"})
        for (std::size_t at; (at = text.find(mark)) != std::string::npos;) text.erase(at, mark.size());
    return printable(text);
}

Row pages_row(const Drawing& drawing) {
    Row rows = Row::array();
    for (const DrawnPage& page : drawing.pages)
        rows.push_back({{"view", static_cast<int>(page.view)},
                        {"name", page.name},
                        {"title", drawn_text(page.title)},
                        {"subject", id_or_none(page.subject)}});
    return rows;
}

Row views_row() {
    Row rows = Row::array();
    for (std::size_t v = 0; v < view_count; ++v)
        rows.push_back(Row::array({name_of(static_cast<View>(v)), summary_of(static_cast<View>(v))}));
    return rows;
}

Row group_names_row(const Rig& rig) {
    Row rows = Row::array();
    for (const std::string& name : group_names(rig)) rows.push_back(printable(name));
    return rows;
}

/// In JSON "<" stands inside strings only, where it may be written as an escape.
std::string without_tags(const std::string& json) {
    std::string text;
    text.reserve(json.size());
    for (char c : json) c == '<' ? text += "\\u003c" : text += c;
    return text;
}

}  // namespace

}  // namespace page_rows

std::string page_data(const PageContents& contents) {
    using namespace page_rows;
    const Report& report = contents.report;
    const Rig& rig = report.rig;
    const std::vector<Switch>& switches = report.facts.switches.switches;
    const std::vector<SwitchChoice> choices = find_choices(rig, switches, contents.state);
    const std::vector<WeightTable> weights = find_weight_tables(rig, report.dependencies, switches, choices, contents.state);
    const Row data{{"rig", printable(rig.name)},
                   {"source", printable(report.source)},
                   {"state", printable(report.facts.state_name)},
                   {"is_default", report.facts.is_default_state},
                   {"states_looked_at", report.facts.switches.looked_at},
                   {"notice", drawn_text(contents.drawing.notice)},
                   {"groups", group_names_row(rig)},
                   {"bones", bones_row(rig)},
                   {"properties", properties_row(rig)},
                   {"objects", objects_row(rig)},
                   {"drivers", drivers_row(rig, report.dependencies)},
                   {"constraints", constraints_row(rig, report.dependencies, contents.state)},
                   {"graph", graph_row(rig, report.dependencies)},
                   {"switches", switches_row(rig, choices)},
                   {"weights", weights_row(weights)},
                   {"deform", deform_row(report.facts)},
                   {"root_controls", ids(report.facts.attachment.root_controls)},
                   {"cycles", cycles_row(report.facts)},
                   {"findings", findings_row(report)},
                   {"order", order_row(report.facts)},
                   {"fan_out", fan_out_row(report.facts)},
                   {"tables", tables_row(contents.tables)},
                   {"views", views_row()},
                   {"pages", pages_row(contents.drawing)}};
    return without_tags(json_rows::text_of(data));
}

}  // namespace ligament
