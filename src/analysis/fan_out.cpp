#include "fan_out.hpp"

#include <algorithm>
#include <span>

#include "ligament/facts.hpp"
#include "marks.hpp"
#include "motion.hpp"
#include "rows.hpp"
#include "visits.hpp"

namespace ligament {

namespace {

/// By property, the drivers that read it, ascending; those of inert constraints' weights are left out.
Rows drivers_of_properties(const Rig& rig, const Dependencies& dependencies) {
    Rows inputs;  // by driver
    for (DriverId d = 0; d < rig.drivers.size(); ++d) {
        const DriverUse& use = dependencies.driver_uses[d];
        const bool weight = use.target == DriverUse::Target::weight || use.target == DriverUse::Target::source_weight;
        if (!weight || !constraint_of(rig, dependencies, use.element).is_inert())
            for (const Input& input : rig.drivers[d].inputs)
                if (input.kind == Input::Kind::property) inputs.needs.push_back(input.property);
        inputs.first.push_back(static_cast<std::uint32_t>(inputs.needs.size()));
    }
    return reversed(inputs, static_cast<std::uint32_t>(rig.properties.size()));
}

/// Counts the drivers and driven properties that properties reach, one property after the other.
struct Counter {
    const Rig& rig;
    const Dependencies& dependencies;
    Rows drivers_of;
    std::vector<PropertyId> driver_seen_for, property_seen_for;
    std::vector<PropertyId> going;

    void sort_in(DriverId driver, FanOut& fan_out) {
        const DriverUse& use = dependencies.driver_uses[driver];
        switch (use.target) {
            case DriverUse::Target::weight:
            case DriverUse::Target::source_weight:
                fan_out.weights.push_back(driver);
                fan_out.constraints.push_back(use.element);
                return;
            case DriverUse::Target::channel:
                fan_out.channels.push_back(driver);
                return;
            case DriverUse::Target::property:
                if (property_seen_for[use.element] == fan_out.property) return;
                property_seen_for[use.element] = fan_out.property;
                fan_out.properties.push_back(use.element);
                going.push_back(use.element);
                return;
            case DriverUse::Target::nothing:
                return;
        }
    }

    FanOut count(PropertyId property) {
        FanOut fan_out;
        fan_out.property = property;
        property_seen_for[property] = property;
        going = {property};
        while (!going.empty()) {
            const PropertyId p = going.back();
            going.pop_back();
            for (DriverId driver : drivers_of.of(p)) {
                if (driver_seen_for[driver] == property) continue;
                driver_seen_for[driver] = property;
                sort_in(driver, fan_out);
            }
        }
        for (std::vector<std::uint32_t>* list :
             {&fan_out.weights, &fan_out.channels, &fan_out.properties, &fan_out.constraints}) {
            std::sort(list->begin(), list->end());
            list->erase(std::unique(list->begin(), list->end()), list->end());
        }
        return fan_out;
    }
};

/// A driven weight counts as a way in even where it comes to 0.
Rows rows_of_fan_out(const Dependencies& dependencies) {
    return pick_rows(dependencies.motion, [&](VertexId, const Edge& edge) {
        return dependencies.is_weight_edge(edge) ? !dependencies.gates[edge.gate].inert : !dependencies.is_inert(edge);
    });
}

Rows needed_by_of_fan_out(const Dependencies& dependencies) {
    const Rows rows = rows_of_fan_out(dependencies);
    return reversed(rows, rows.size());
}

/// The bones that properties move: searches from one property after the other.
struct Mover {
    const Rig& rig;
    const Dependencies& dependencies;
    const Graph& graph;
    const Rows& needed_by;
    Visits seen;
    std::vector<VertexId> reached{};  ///< in the order of the search
    std::uint64_t work = 0;

    Mover(const Rig& r, const Dependencies& d, const Rows& needed)
        : rig(r), dependencies(d), graph(d.motion), needed_by(needed), seen(needed.size()) {}

    /// The bones whose final or curve is reached, ascending.
    std::vector<BoneId> bones_moved(PropertyId property) {
        const auto visit = [&](VertexId v) {
            if (seen.enter(v)) reached.push_back(v);
        };
        reached.clear();
        seen.begin();
        visit(graph.first_property + property);
        for (std::size_t head = 0; head < reached.size(); ++head) {
            const std::span<const VertexId> next = needed_by.of(reached[head]);
            work += next.size();
            for (VertexId v : next) visit(v);
        }
        std::vector<BoneId> bones;
        for (VertexId v : reached)
            if (is_arrival(rig, dependencies, v)) bones.push_back(dependencies.bone_of(graph, v));
        std::sort(bones.begin(), bones.end());
        bones.erase(std::unique(bones.begin(), bones.end()), bones.end());
        return bones;
    }
};

/// Counts bones for the properties from `first` on, 256 of them a pass over the rig.
void count_bones_in_passes(const Rig& rig, const Dependencies& dependencies, std::size_t first, std::vector<FanOut>& fan_outs) {
    const Graph& graph = dependencies.motion;
    const Rows rows = rows_of_fan_out(dependencies);
    const Sweep order = find_sweep(dependencies, rows);
    for (; first < fan_outs.size(); first += MarkSet::capacity) {
        const std::size_t count = std::min(MarkSet::capacity, fan_outs.size() - first);
        std::vector<MarkSet> sets(rows.size());
        for (std::size_t i = 0; i < count; ++i) sets[graph.first_property + fan_outs[first + i].property].insert(i);
        spread_marks(rows, order, sets);
        for (BoneId b = 0; b < rig.bones.size(); ++b) {
            const Arrivals arrivals = arrivals_of(rig, graph, b);
            MarkSet all;
            for (VertexId v = arrivals.first; v < arrivals.end; ++v) all |= sets[v];
            all.for_each([&](std::size_t i) { ++fan_outs[first + i].bones_moved; });
        }
    }
}

}  // namespace

std::vector<FanOut> find_driven_targets(const Rig& rig, const Dependencies& dependencies) {
    Counter counter{rig,
                    dependencies,
                    drivers_of_properties(rig, dependencies),
                    std::vector<PropertyId>(rig.drivers.size(), none),
                    std::vector<PropertyId>(rig.properties.size(), none),
                    {}};
    std::vector<FanOut> fan_outs;
    for (PropertyId p = 0; p < rig.properties.size(); ++p) fan_outs.push_back(counter.count(p));
    return fan_outs;
}

// Most properties move a limb, so that a search each is cheap. Where the searches together have looked at the whole rig a few
// times, the rest go side by side.
std::vector<FanOut> find_fan_out(const Rig& rig, const Dependencies& dependencies, const Rows& needed_by) {
    std::vector<FanOut> fan_outs = find_driven_targets(rig, dependencies);
    if (rig.properties.empty()) return fan_outs;
    const std::size_t properties = rig.properties.size();
    Mover mover(rig, dependencies, needed_by);
    const std::uint64_t enough = 4 * std::uint64_t{needed_by.needs.size()};
    std::size_t next = 0;
    for (; next < properties && mover.work <= enough; ++next)
        fan_outs[next].bones_moved = static_cast<std::uint32_t>(mover.bones_moved(static_cast<PropertyId>(next)).size());
    if (next < properties) count_bones_in_passes(rig, dependencies, next, fan_outs);
    return fan_outs;
}

std::vector<FanOut> find_fan_out(const Rig& rig, const Dependencies& dependencies) {
    return find_fan_out(rig, dependencies, needed_by_of_fan_out(dependencies));
}

std::vector<BoneId> find_bones_moved(const Rig& rig, const Dependencies& dependencies, PropertyId property) {
    return Mover(rig, dependencies, needed_by_of_fan_out(dependencies)).bones_moved(property);
}

}  // namespace ligament
