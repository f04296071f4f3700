#include "touching.hpp"

#include <algorithm>
#include <set>

#include "marks.hpp"
#include "motion.hpp"
#include "visits.hpp"

namespace ligament {

namespace {

constexpr std::size_t batch = 64;
constexpr std::uint64_t most_counted = InteractingSet::most_counted;

std::vector<Setting> settings_off_default(const Rig& rig, const std::vector<Switch>& switches, std::uint32_t index) {
    std::vector<Setting> settings;
    const Switch& of = switches[index];
    for (std::uint32_t stop = 0; stop < of.stops.size(); ++stop)
        if (of.stops[stop].value != rig.properties[of.property].initial) settings.push_back({index, stop});
    return settings;
}

std::uint64_t multiplied(std::uint64_t a, std::uint64_t b) { return a > most_counted / b ? most_counted : a * b; }

struct Toucher {
    const Rig& rig;
    const Dependencies& dependencies;
    const Rows& needed_by;
    const Sweep& order;
    const std::vector<Switch>& switches;
    std::vector<VertexRange> vertices = vertices_of_constraints(dependencies);
    std::vector<BoneId> deform{};
    std::vector<std::uint32_t> place_of{};  ///< by bone: place among the deform bones, or none
    std::vector<std::vector<std::uint32_t>> touching{};
    Visits seen{};
    std::vector<VertexId> reached{};
    std::uint64_t work = 0;

    const Graph& graph() const { return dependencies.motion; }

    void list_deform_bones() {
        place_of.resize(rig.bones.size(), none);
        for (BoneId b = 0; b < rig.bones.size(); ++b) {
            if (!rig.bones[b].deform) continue;
            place_of[b] = static_cast<std::uint32_t>(deform.size());
            deform.push_back(b);
        }
        touching.resize(deform.size());
        seen = Visits(graph().vertices.size());
    }

    /// A switch chooses who moves a bone; motion does not go on through the driver of a weight.
    bool drives_a_weight(const Vertex& vertex) const {
        if (vertex.kind != VertexKind::driver) return false;
        const DriverUse::Target target = dependencies.driver_uses[vertex.element].target;
        return target == DriverUse::Target::weight || target == DriverUse::Target::source_weight;
    }

    void visit(VertexId v, std::uint32_t index) {
        if (!seen.enter(v)) return;
        const Vertex& vertex = graph().vertices[v];
        if (drives_a_weight(vertex)) return;
        reached.push_back(v);
        if (!is_arrival(rig, dependencies, v)) return;
        const std::uint32_t place = place_of[dependencies.bone_of(graph(), v)];
        if (place == none) return;
        std::vector<std::uint32_t>& touched_by = touching[place];
        if (touched_by.empty() || touched_by.back() != index) touched_by.push_back(index);
    }

    void search(std::uint32_t index) {
        reached.clear();
        seen.begin();
        for (ConstraintId id : switches[index].constraints)
            for (VertexId v = vertices[id].first; v < vertices[id].end; ++v) visit(v, index);
        for (std::size_t head = 0; head < reached.size(); ++head) {
            const std::span<const VertexId> next = needed_by.of(reached[head]);
            work += next.size();
            for (VertexId v : next) visit(v, index);
        }
    }

    /// The switches from `first` on, 64 of them a pass over the rig.
    void spread_rest(std::size_t first) {
        const Rows rows = pick_rows(graph(), [&](VertexId, const Edge& edge) {
            return !dependencies.is_inert(edge) && !dependencies.is_weight_edge(edge);
        });
        std::vector<std::uint64_t> marks;
        for (; first < switches.size(); first += batch) {
            marks.assign(graph().vertices.size(), 0);
            for (std::size_t i = 0; i < std::min(batch, switches.size() - first); ++i)
                for (ConstraintId id : switches[first + i].constraints)
                    for (VertexId v = vertices[id].first; v < vertices[id].end; ++v) marks[v] |= std::uint64_t{1} << i;
            spread_marks(rows, order, marks);
            for (std::size_t place = 0; place < deform.size(); ++place) {
                const Arrivals arrivals = arrivals_of(rig, graph(), deform[place]);
                std::uint64_t all = 0;
                for (VertexId v = arrivals.first; v < arrivals.end; ++v) all |= marks[v];
                for (; all != 0; all &= all - 1)
                    touching[place].push_back(static_cast<std::uint32_t>(first) +
                                              static_cast<std::uint32_t>(std::countr_zero(all)));
            }
        }
    }
};

}  // namespace

std::vector<std::vector<std::uint32_t>> find_touching(const Rig& rig, const Dependencies& dependencies, const Rows& needed_by,
                                                      const Sweep& order, const std::vector<Switch>& switches) {
    Toucher toucher{rig, dependencies, needed_by, order, switches};
    toucher.list_deform_bones();
    const std::uint64_t enough = 4 * std::uint64_t{needed_by.needs.size()};
    std::uint32_t next = 0;
    for (; next < switches.size() && toucher.work <= enough; ++next) toucher.search(next);
    if (next < switches.size()) toucher.spread_rest(next);
    return std::move(toucher.touching);
}

std::vector<InteractingSet> find_interacting_sets(const Rig& rig, const std::vector<Switch>& switches,
                                                  const std::vector<std::vector<std::uint32_t>>& touching) {
    std::set<std::vector<std::uint32_t>> different;
    for (const auto& set : touching)
        if (set.size() > 1) different.insert(set);
    std::vector<std::vector<std::uint32_t>> largest_first(different.begin(), different.end());
    std::stable_sort(largest_first.begin(), largest_first.end(),
                     [](const auto& a, const auto& b) { return a.size() > b.size(); });
    std::vector<std::vector<std::uint32_t>> kept;
    std::vector<std::vector<std::size_t>> kept_with(switches.size());  // by switch: the kept sets that have it
    for (const auto& set : largest_first) {
        const auto rarest = *std::min_element(
            set.begin(), set.end(), [&](std::uint32_t a, std::uint32_t b) { return kept_with[a].size() < kept_with[b].size(); });
        const bool inside = std::any_of(kept_with[rarest].begin(), kept_with[rarest].end(), [&](std::size_t k) {
            return std::includes(kept[k].begin(), kept[k].end(), set.begin(), set.end());
        });
        if (inside) continue;
        for (std::uint32_t s : set) kept_with[s].push_back(kept.size());
        kept.push_back(set);
    }
    std::sort(kept.begin(), kept.end());
    std::vector<InteractingSet> sets;
    for (auto& set : kept) {
        std::uint64_t all = 1, single = 0;
        for (std::uint32_t s : set) {
            const std::uint64_t stops = settings_off_default(rig, switches, s).size();
            all = multiplied(all, 1 + stops);
            single += stops;
        }
        sets.push_back({std::move(set), all == most_counted ? all : all - 1 - single, 0});
    }
    return sets;
}

Combinations::Combinations(const Rig& rig, const std::vector<Switch>& switches, const InteractingSet& set) {
    for (std::uint32_t index : set.switches) {
        std::vector<Setting> settings = settings_off_default(rig, switches, index);
        if (!settings.empty()) off_default_.push_back(std::move(settings));
    }
}

/// The next choice of switches: of as many as now in file order, else the first of one more.
bool Combinations::choose_next() {
    const std::size_t switches = off_default_.size(), size = chosen_.size();
    std::size_t i = size;
    while (i > 0 && chosen_[i - 1] == switches - (size - (i - 1))) --i;
    if (i > 0) {
        ++chosen_[i - 1];
        for (; i < size; ++i) chosen_[i] = chosen_[i - 1] + 1;
    } else {
        chosen_.resize(std::max<std::size_t>(2, size + 1));
        if (chosen_.size() > switches) return false;
        for (std::size_t j = 0; j < chosen_.size(); ++j) chosen_[j] = j;
    }
    stop_.assign(chosen_.size(), 0);
    return true;
}

const Settings& Combinations::next() {
    settings_.clear();
    std::size_t i = chosen_.size();
    while (i > 0 && stop_[i - 1] + 1 == off_default_[chosen_[i - 1]].size()) stop_[--i] = 0;
    if (i > 0)
        ++stop_[i - 1];
    else if (!choose_next())
        return settings_;
    for (std::size_t j = 0; j < chosen_.size(); ++j) settings_.push_back(off_default_[chosen_[j]][stop_[j]]);
    return settings_;
}

}  // namespace ligament
