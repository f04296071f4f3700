#include "fan_out.hpp"

#include <algorithm>
#include <span>

#include "ligament/facts.hpp"
#include "marks.hpp"
#include "motion.hpp"
#include "rows.hpp"

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

/// The bones that properties move: searches from one property after the other.
struct Mover {
    const Rig& rig;
    const Graph& channel;
    Rows rows, needed_by;
    std::vector<PropertyId> seen_for;  ///< by vertex: the last property that came by
    std::vector<VertexId> reached;     ///< in the order of the search
    std::uint64_t work = 0;

    Mover(const Rig& r, const Dependencies& dependencies)
        : rig(r),
          channel(dependencies.channel),
          rows(pick_rows(channel,
                         [&](VertexId, const Edge& edge) {
                             return dependencies.is_weight_edge(edge) ? !dependencies.gates[edge.gate].inert
                                                                      : !dependencies.is_inert(edge);
                         })),
          needed_by(reversed(rows, rows.size())),
          seen_for(rows.size(), none) {}

    /// The bones whose final or curve is reached, ascending.
    std::vector<BoneId> bones_moved(const Dependencies& dependencies, PropertyId property) {
        const auto visit = [&](VertexId v) {
            if (seen_for[v] == property) return;
            seen_for[v] = property;
            reached.push_back(v);
        };
        reached.clear();
        visit(channel.first_property + property);
        for (std::size_t head = 0; head < reached.size(); ++head) {
            const std::span<const VertexId> next = needed_by.of(reached[head]);
            work += next.size();
            for (VertexId v : next) visit(v);
        }
        std::vector<BoneId> bones;
        for (VertexId v : reached) {
            const VertexKind kind = channel.vertices[v].kind;
            if (kind == VertexKind::final || kind == VertexKind::curve) bones.push_back(dependencies.bone_of(channel, v));
        }
        std::sort(bones.begin(), bones.end());
        bones.erase(std::unique(bones.begin(), bones.end()), bones.end());
        return bones;
    }
};

/// Counts bones for the properties from `first` on, 256 of them a pass over the rig.
void count_bones_in_passes(const Dependencies& dependencies, const Mover& mover, std::size_t first,
                           std::vector<FanOut>& fan_outs) {
    const Sweep order = find_sweep(dependencies, mover.rows);
    for (; first < fan_outs.size(); first += MarkSet::capacity) {
        const std::size_t count = std::min(MarkSet::capacity, fan_outs.size() - first);
        std::vector<MarkSet> sets(mover.rows.size());
        for (std::size_t i = 0; i < count; ++i) sets[mover.channel.first_property + fan_outs[first + i].property].insert(i);
        spread_marks(mover.rows, order, sets);
        for (BoneId b = 0; b < mover.rig.bones.size(); ++b) {
            const Arrivals arrivals = arrivals_of(mover.rig, mover.channel, b);
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
std::vector<FanOut> find_fan_out(const Rig& rig, const Dependencies& dependencies) {
    std::vector<FanOut> fan_outs = find_driven_targets(rig, dependencies);
    if (rig.properties.empty()) return fan_outs;
    const std::size_t properties = rig.properties.size();
    Mover mover(rig, dependencies);
    const std::uint64_t enough = 4 * std::uint64_t{mover.rows.needs.size()};
    std::size_t next = 0;
    for (; next < properties && mover.work <= enough; ++next)
        fan_outs[next].bones_moved =
            static_cast<std::uint32_t>(mover.bones_moved(dependencies, static_cast<PropertyId>(next)).size());
    if (next < properties) count_bones_in_passes(dependencies, mover, next, fan_outs);
    return fan_outs;
}

std::vector<BoneId> find_bones_moved(const Rig& rig, const Dependencies& dependencies, PropertyId property) {
    return Mover(rig, dependencies).bones_moved(dependencies, property);
}

}  // namespace ligament
