// Which controls move which deform bones, limb by limb, as each switch stands?
#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include "control_search.hpp"
#include "ligament/switches.hpp"
#include "state_walk.hpp"
#include "touching.hpp"

namespace ligament {

namespace {

struct Moved {
    Verdict verdict = Verdict::orphaned;
    std::vector<BoneId> controls;

    friend auto operator<=>(const Moved&, const Moved&) = default;
};

struct Tabulator {
    const Rig& rig;
    const Dependencies& dependencies;
    LiveMotion live;
    StateWalk walk;
    ControlSearch search;
    std::vector<Switch> switches;
    std::vector<std::vector<std::uint32_t>> touching;  ///< by place among the deform bones
    std::vector<BoneId> deform;
    std::vector<std::uint32_t> table_of;   ///< by place: its table
    std::vector<std::uint8_t> is_changed;  ///< by place: some switch changes who moves it
    std::vector<StateTable> tables;

    Tabulator(const Rig& r, const Dependencies& d)
        : rig(r), dependencies(d), live(find_live_motion(d)), walk(r, d, live), search(r, d) {
        switches = find_switches(rig, dependencies);
        touching = find_touching(rig, dependencies, live.needed_by, live.order, switches);
        std::map<std::string_view, std::uint32_t> table_of_group;
        for (BoneId b = 0; b < rig.bones.size(); ++b) {
            if (!rig.bones[b].deform) continue;
            const auto [at, fresh] = table_of_group.emplace(rig.bones[b].group, static_cast<std::uint32_t>(tables.size()));
            if (fresh) tables.push_back({rig.bones[b].group, {}, {}, {}});
            deform.push_back(b);
            table_of.push_back(at->second);
        }
        is_changed.resize(deform.size(), 0);
    }

    /// How some deform bones, by place, are moved in the state at hand.
    std::vector<Moved> find_moved(const std::vector<std::uint32_t>& places) {
        std::vector<Verdict> verdicts = walk.default_verdicts();
        for (const StateWalk::Judged& judged : walk.judge()) verdicts[judged.place] = judged.verdict;
        std::vector<Moved> moved;
        for (std::uint32_t place : places)
            moved.push_back({verdicts[place], search.find(deform[place], [&](VertexId v, const Edge& edge) {
                                 return carries_motion(dependencies, walk.liveness(), v, edge);
                             })});
        return moved;
    }

    /// Rows for those of the places that are wanted; bones moved alike share one.
    void add_rows(const Settings& settings, const std::vector<std::uint32_t>& places, const std::vector<Moved>& moved,
                  const std::vector<std::uint8_t>& is_wanted) {
        std::map<std::pair<std::uint32_t, Moved>, std::size_t> row_of;
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (!is_wanted[i]) continue;
            StateTable& table = tables[table_of[places[i]]];
            const auto [at, fresh] = row_of.emplace(std::pair{table_of[places[i]], moved[i]}, table.rows.size());
            if (fresh) table.rows.push_back({settings, moved[i].verdict, {}, moved[i].controls});
            table.rows[at->second].bones.push_back(deform[places[i]]);
        }
    }

    /// The places that the switch touches, and those whose verdict changes at a stop though it does not touch them: what is a
    /// root control is found anew in each state.
    std::vector<std::uint32_t> places_of(std::uint32_t index, std::vector<std::uint32_t> places) {
        for (const Stop& stop : switches[index].stops) {
            walk.set({{switches[index].property, stop.value}});
            for (const StateWalk::Judged& judged : walk.judge())
                if (judged.verdict != walk.default_verdicts()[judged.place]) places.push_back(judged.place);
            walk.unset();
        }
        std::sort(places.begin(), places.end());
        places.erase(std::unique(places.begin(), places.end()), places.end());
        return places;
    }

    bool is_default_a_stop(std::uint32_t index) const {
        const double initial = rig.properties[switches[index].property].initial;
        return std::any_of(switches[index].stops.begin(), switches[index].stops.end(),
                           [&](const Stop& stop) { return stop.value == initial; });
    }

    /// Rows at each stop, and in the default state where that is none, for the bones that are not moved alike in all of them.
    void add_switch(std::uint32_t index, const std::vector<std::uint32_t>& touched) {
        const std::vector<std::uint32_t> places = places_of(index, touched);
        if (places.empty()) return;
        const std::vector<Moved> by_default = find_moved(places);
        std::vector<std::vector<Moved>> at_stops;
        std::vector<std::uint8_t> changes(places.size(), 0);
        for (const Stop& stop : switches[index].stops) {
            walk.set({{switches[index].property, stop.value}});
            at_stops.push_back(find_moved(places));
            walk.unset();
            for (std::size_t i = 0; i < places.size(); ++i)
                if (at_stops.back()[i] != by_default[i]) changes[i] = is_changed[places[i]] = 1;
        }
        note_without_effect(index, places, changes);
        if (!is_default_a_stop(index)) add_rows({{index, none}}, places, by_default, changes);
        for (std::uint32_t stop = 0; stop < at_stops.size(); ++stop) add_rows({{index, stop}}, places, at_stops[stop], changes);
    }

    void note_without_effect(std::uint32_t index, const std::vector<std::uint32_t>& places,
                             const std::vector<std::uint8_t>& changes) {
        std::vector<std::uint8_t> is_touched(tables.size(), 0), has_effect(tables.size(), 0);
        for (std::size_t i = 0; i < places.size(); ++i) {
            is_touched[table_of[places[i]]] = 1;
            if (changes[i]) has_effect[table_of[places[i]]] = 1;
        }
        for (std::size_t table = 0; table < tables.size(); ++table)
            if (is_touched[table] && !has_effect[table]) tables[table].without_effect.push_back(index);
    }

    static void take_out_shared(StateTable& table) {
        table.shared = table.rows.front().controls;
        for (const StateRow& row : table.rows) {
            std::vector<BoneId> both;
            std::set_intersection(table.shared.begin(), table.shared.end(), row.controls.begin(), row.controls.end(),
                                  std::back_inserter(both));
            table.shared = std::move(both);
        }
        for (StateRow& row : table.rows)
            std::erase_if(row.controls,
                          [&](BoneId c) { return std::binary_search(table.shared.begin(), table.shared.end(), c); });
    }

    std::vector<StateTable> tabulate() {
        std::vector<std::vector<std::uint32_t>> touched(switches.size());
        for (std::uint32_t place = 0; place < deform.size(); ++place)
            for (std::uint32_t index : touching[place]) touched[index].push_back(place);
        for (std::uint32_t index = 0; index < switches.size(); ++index) add_switch(index, touched[index]);
        std::vector<std::uint32_t> rest;
        for (std::uint32_t place = 0; place < deform.size(); ++place)
            if (!is_changed[place]) rest.push_back(place);
        add_rows({}, rest, find_moved(rest), std::vector<std::uint8_t>(rest.size(), 1));
        for (StateTable& table : tables) take_out_shared(table);
        return std::move(tables);
    }
};

}  // namespace

std::vector<StateTable> find_state_tables(const Rig& rig, const Dependencies& dependencies) {
    return Tabulator(rig, dependencies).tabulate();
}

}  // namespace ligament
