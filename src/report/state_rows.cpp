#include "state_rows.hpp"

namespace ligament::json_rows {

namespace {

std::string state_name(const Report& report, const Settings& settings) {
    return name_of(report.rig, report.facts.switches.switches, settings);
}

Row switch_row(const Report& report, std::uint32_t index) {
    const std::vector<Switch>& switches = report.facts.switches.switches;
    Row stops = Row::array();
    for (std::uint32_t stop = 0; stop < switches[index].stops.size(); ++stop)
        stops.push_back(
            {{"state", name_of(report.rig, switches, Setting{index, stop})}, {"value", switches[index].stops[stop].value}});
    return {{"property", report.rig.properties[switches[index].property].name}, {"stops", std::move(stops)}};
}

}  // namespace

void add_worse(Row& row, const Report& report, std::size_t place) {
    const SwitchFacts& facts = report.facts.switches;
    Row worse_in = Row::array(), in_combinations = Row::array();
    for (const Worse& worse : facts.worse[place])
        worse_in.push_back({{"state", state_name(report, worse.settings)}, {"verdict", name_of(worse.verdict)}});
    row["worse_in"] = std::move(worse_in);
    for (const Worse& worse : facts.worse_yet[place]) {
        Row settings = Row::array();
        for (Setting setting : worse.settings) settings.push_back(name_of(report.rig, facts.switches, setting));
        in_combinations.push_back({{"state", state_name(report, worse.settings)},
                                   {"switches", std::move(settings)},
                                   {"verdict", name_of(worse.verdict)}});
    }
    if (!in_combinations.empty()) row["worse_in_combinations"] = std::move(in_combinations);
}

Row live_in_row(const Report& report, std::size_t index) {
    Row names = Row::array();
    for (const Settings& settings : report.facts.switches.live_in[index]) names.push_back(state_name(report, settings));
    return names;
}

Row states_row(const Report& report) {
    const SwitchFacts& facts = report.facts.switches;
    Row switches = Row::array(), sets = Row::array();
    for (std::uint32_t index = 0; index < facts.switches.size(); ++index) switches.push_back(switch_row(report, index));
    for (const InteractingSet& set : facts.sets) {
        Row names = Row::array();
        for (std::uint32_t index : set.switches) names.push_back(report.rig.properties[facts.switches[index].property].name);
        Row row{{"switches", std::move(names)}, {"combinations", set.combinations}};
        if (!set.is_counted()) row["combinations_counted"] = false;  // there are more
        row["looked_at"] = set.looked_at;
        sets.push_back(std::move(row));
    }
    return {{"switches", std::move(switches)}, {"looked_at", facts.looked_at}, {"sets", std::move(sets)}};
}

}  // namespace ligament::json_rows
