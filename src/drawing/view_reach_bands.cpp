// Who moves which deform bones, limb by limb and stop by stop?
#include "view_reach_bands.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <unordered_map>
#include <utility>

#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

std::string stop_text(const Subject& subject, const Settings& settings) {
    const std::vector<Switch>& switches = subject.facts.switches.switches;
    std::string text = drawable(name_of(subject.rig, switches, settings));
    const Setting& setting = settings.front();
    const Switch& of = switches[setting.switch_index];
    const bool is_default = setting.stop == none || of.stops[setting.stop].value == subject.rig.properties[of.property].initial;
    return is_default ? text + " (default)" : text;
}

/// The tables of all stops in the form of StateTable, of the one state that was asked for.
std::vector<StateTable> tables_of_state(const Subject& subject) {
    std::vector<StateTable> tables;
    std::vector<std::uint32_t> table_of(subject.groups.size(), none);
    std::map<std::pair<std::uint32_t, std::pair<Verdict, std::vector<BoneId>>>, std::size_t> row_of;
    for (const Attachment& entry : subject.facts.attachment.deform) {
        std::uint32_t& table = table_of[subject.group_of[entry.bone]];
        if (table == none) {
            table = static_cast<std::uint32_t>(tables.size());
            tables.push_back({subject.rig.bones[entry.bone].group, {}, {}, {}});
        }
        std::vector<StateRow>& rows = tables[table].rows;
        const auto [at, is_new] = row_of.try_emplace({table, {entry.verdict, entry.controls}}, rows.size());
        if (is_new) rows.push_back({{}, entry.verdict, {}, entry.controls});
        rows[at->second].bones.push_back(entry.bone);
    }
    return tables;
}

/// Where a bone that no control moves leaves a limb without shared controls, those that all others share.
void share_among_moved(StateTable& table, ReachBand& band) {
    if (!table.shared.empty()) return;
    bool is_first = true;
    for (const StateRow& row : table.rows) {
        if (row.controls.empty()) {
            band.shared_by_moved = true;
            continue;
        }
        std::vector<BoneId> both;
        std::set_intersection(table.shared.begin(), table.shared.end(), row.controls.begin(), row.controls.end(),
                              std::back_inserter(both));
        table.shared = is_first ? row.controls : std::move(both);
        is_first = false;
    }
    for (StateRow& row : table.rows)
        std::erase_if(row.controls, [&](BoneId c) { return std::binary_search(table.shared.begin(), table.shared.end(), c); });
}

/// Rows of one stop and verdict told as one.
void count_rows(ReachBand& band) {
    std::vector<ReachRow> joined;
    std::set<BoneId> controls;
    for (ReachRow& row : band.rows) {
        if (joined.empty() || joined.back().state != row.state || joined.back().verdict != row.verdict) {
            joined.push_back({row.state, row.verdict, {}, {}, 0, false, row.is_moved});
            controls.clear();
            controls.insert(band.shared.begin(), band.shared.end());
        }
        controls.insert(row.controls.begin(), row.controls.end());
        ReachRow& into = joined.back();
        into.bones.insert(into.bones.end(), row.bones.begin(), row.bones.end());
        into.control_count = controls.size();
    }
    band.rows = std::move(joined);
}

std::string note_of(const Subject& subject, const StateTable& table) {
    if (table.without_effect.empty()) return {};
    std::string text;
    for (std::uint32_t index : table.without_effect)
        text +=
            (text.empty() ? "" : ", ") + drawable(subject.rig.properties[subject.facts.switches.switches[index].property].name);
    return text + (table.without_effect.size() == 1 ? " touches" : " touch") + " these bones, but who moves them stays the same";
}

ReachBand band_of(const Subject& subject, StateTable& table, std::uint32_t group, bool is_of_state) {
    ReachBand band;
    band.group = group;
    band.title = table.group.empty() ? "no group" : drawable(table.group);
    std::vector<std::uint8_t> is_moved;
    for (const StateRow& row : table.rows) is_moved.push_back(!row.controls.empty() || !table.shared.empty());
    share_among_moved(table, band);
    band.shared = std::move(table.shared);
    const bool has_stops = !table.rows.front().settings.empty();
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        StateRow& row = table.rows[i];
        ReachRow made;
        if (!row.settings.empty())
            made.state = stop_text(subject, row.settings);
        else if (has_stops)
            made.state = "at every stop";
        else if (is_of_state)
            made.state = "at " + drawable(subject.facts.state_name);
        made.verdict = row.verdict;
        made.by_shared_alone = row.controls.empty() && is_moved[i];
        made.is_moved = is_moved[i];
        made.controls = std::move(row.controls);
        made.bones = std::move(row.bones);
        band.rows.push_back(std::move(made));
    }
    band.note = note_of(subject, table);
    return band;
}

}  // namespace

ReachPlan plan_bands(const Subject& subject) {
    ReachPlan plan;
    const bool is_of_state = !subject.facts.is_default_state;
    plan.is_counted = subject.rig.bones.size() > most_bones_joined;
    plan.switches = subject.facts.switches.switches.size();
    std::vector<StateTable> tables =
        is_of_state ? tables_of_state(subject) : find_state_tables(subject.rig, subject.dependencies);
    std::unordered_map<std::string_view, std::uint32_t> groups;
    for (std::uint32_t g = 0; g < subject.groups.size(); ++g) groups.emplace(subject.groups[g], g);
    for (StateTable& table : tables) {
        plan.bands.push_back(band_of(subject, table, groups.at(table.group), is_of_state));
        if (plan.is_counted) count_rows(plan.bands.back());
    }
    return plan;
}

}  // namespace ligament
