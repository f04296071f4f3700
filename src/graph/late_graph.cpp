// How are the finer grains made only where somebody asks for them?
#include <mutex>
#include <utility>

#include "ligament/graph.hpp"

namespace ligament {

struct LateGraph::Kept {
    Wire wire;  ///< empty where the graph was there from the beginning
    std::once_flag once;
    Graph graph;
};

LateGraph::LateGraph(Wire wire) : kept_(std::make_shared<Kept>()) { kept_->wire = std::move(wire); }

LateGraph::LateGraph(Graph graph) : kept_(std::make_shared<Kept>()) { kept_->graph = std::move(graph); }

const Graph& LateGraph::whole(const Rig& rig, const Dependencies& dependencies) const {
    static const Graph empty;
    if (!kept_) return empty;
    std::call_once(kept_->once, [&] {
        if (kept_->wire) kept_->graph = kept_->wire(rig, dependencies, {});
    });
    return kept_->graph;
}

Graph LateGraph::part(const Rig& rig, const Dependencies& dependencies, std::span<const std::uint8_t> marked) const {
    return kept_ && kept_->wire ? kept_->wire(rig, dependencies, marked) : whole(rig, dependencies);
}

const Graph& Dependencies::at(const Rig& rig, Grain grain) const {
    return grain == Grain::bone ? bone : (grain == Grain::step ? step : channel).whole(rig, *this);
}

GraphSize Dependencies::size_at(Grain grain) const {
    if (grain == Grain::bone) return {bone.vertices.size(), bone.edges.size()};
    return grain == Grain::step ? step_size : channel_size;
}

}  // namespace ligament
