#include "state_rows.hpp"

namespace ligament::json_rows {

namespace {

std::string state_name(const Report& report, const Settings& settings) {
    return name_of(report.rig, report.facts.switches.switches, settings);
}

void write_switch(JsonOut& out, const Report& report, std::uint32_t index) {
    const std::vector<Switch>& switches = report.facts.switches.switches;
    Fields row(out);
    row.text("property", report.rig.properties[switches[index].property].name);
    std::uint32_t stop = 0;
    row.list("stops", switches[index].stops, [&](const Stop& named) {
        Fields stop_row(out);
        stop_row.text("state", name_of(report.rig, switches, Setting{index, stop++}));
        stop_row.key("value") << text_of(Row(named.value));
    });
}

void write_set(JsonOut& out, const Report& report, const InteractingSet& set) {
    Fields row(out);
    row.list("switches", set.switches, [&](std::uint32_t index) {
        out.write_string(report.rig.properties[report.facts.switches.switches[index].property].name);
    });
    row.number("combinations", set.combinations);
    if (!set.is_counted()) row.truth("combinations_counted", false);  // there are more
    row.number("looked_at", set.looked_at);
}

}  // namespace

void write_worse(Fields& row, JsonOut& out, const Report& report, std::size_t place) {
    const SwitchFacts& facts = report.facts.switches;
    row.list("worse_in", facts.worse[place], [&](const Worse& worse) {
        Fields one(out);
        one.text("state", state_name(report, worse.settings));
        one.text("verdict", name_of(worse.verdict));
    });
    if (facts.worse_yet[place].empty()) return;
    row.list("worse_in_combinations", facts.worse_yet[place], [&](const Worse& worse) {
        Fields one(out);
        one.text("state", state_name(report, worse.settings));
        one.list("switches", worse.settings,
                 [&](Setting setting) { out.write_string(name_of(report.rig, facts.switches, setting)); });
        one.text("verdict", name_of(worse.verdict));
    });
}

Row live_in_row(const Report& report, std::size_t index) {
    Row names = Row::array();
    for (const Settings& settings : report.facts.switches.live_in[index]) names.push_back(state_name(report, settings));
    return names;
}

void write_states(JsonOut& out, const Report& report) {
    const SwitchFacts& facts = report.facts.switches;
    Fields row(out);
    std::uint32_t index = 0;
    row.list("switches", facts.switches, [&](const Switch&) { write_switch(out, report, index++); });
    row.number("looked_at", facts.looked_at);
    row.list("sets", facts.sets, [&](const InteractingSet& set) { write_set(out, report, set); });
}

}  // namespace ligament::json_rows
