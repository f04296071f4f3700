#include "cycle_graphs.hpp"

namespace ligament {

CycleGraphs::CycleGraphs(const Rig& rig, const Dependencies& dependencies, const Rows& rows, const Condensation& components)
    : rig_(rig), dependencies_(dependencies), is_marked_(dependencies.bone.first_property, 0) {
    for (std::uint32_t c = 0; c < components.size(); ++c) {
        if (!has_cycle(rows, components, c)) continue;
        for (VertexId v : components.of(c)) {
            const Vertex& vertex = dependencies.bone.vertices[v];
            if (v < dependencies.bone.first_property) is_marked_[v] = 1;
            if (vertex.kind != VertexKind::driver) continue;
            const DriverUse& use = dependencies.driver_uses[vertex.element];
            if (use.target == DriverUse::Target::channel) is_marked_[use.element] = 1;
        }
    }
}

const Graph& CycleGraphs::at(Grain grain) {
    if (grain == Grain::bone) return dependencies_.bone;
    std::optional<Graph>& graph = grain == Grain::step ? step_ : channel_;
    const LateGraph& late = grain == Grain::step ? dependencies_.step : dependencies_.channel;
    if (!graph) graph = late.part(rig_, dependencies_, is_marked_);
    return *graph;
}

}  // namespace ligament
