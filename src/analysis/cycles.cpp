// What is circular? Components of the live bone grain that have a cycle, each with the finest grain at which one is left.
#include <algorithm>
#include <utility>

#include "components.hpp"
#include "cycle_graphs.hpp"
#include "folding.hpp"
#include "ligament/facts.hpp"
#include "sweep.hpp"
#include "witness.hpp"

namespace ligament {

namespace {

/// Numbers of the vertices of a part of a graph, used again from one part to the next.
struct LocalNumbers {
    std::vector<std::uint32_t> of;  ///< by vertex: place in the part, else none

    void assign(const Graph& graph, const std::vector<VertexId>& part) {
        of.resize(graph.vertices.size(), none);
        for (std::uint32_t i = 0; i < part.size(); ++i) of[part[i]] = i;
    }
    void clear(const std::vector<VertexId>& part) {
        for (VertexId v : part) of[v] = none;
    }
};

/// The live edges inside a part of a graph.
Core cut_out(const Dependencies& dependencies, const Graph& graph, std::vector<VertexId> part, LocalNumbers& numbers) {
    Core core;
    numbers.assign(graph, part);
    core.rows.first.reserve(part.size() + 1);
    for (VertexId v : part) {
        for (std::uint32_t e = graph.rows[v]; e < graph.rows[v + 1]; ++e) {
            const Edge& edge = graph.edges[e];
            if (numbers.of[edge.from] == none || dependencies.is_inert(edge)) continue;
            core.rows.needs.push_back(numbers.of[edge.from]);
            core.edges.push_back(e);
        }
        core.rows.first.push_back(static_cast<std::uint32_t>(core.rows.needs.size()));
    }
    core.has_bones = !part.empty() && part.front() < graph.first_property;
    numbers.clear(part);
    core.vertices = std::move(part);
    return core;
}

/// The strongly connected components with a cycle that a bone-grain component has at some grain, by their first vertex.
std::vector<Core> find_cores(const Dependencies& dependencies, const Graph& graph, std::span<const VertexId> at_bone_grain,
                             LocalNumbers& numbers) {
    const Core whole = cut_out(dependencies, graph, vertices_at(dependencies, graph, at_bone_grain), numbers);
    const Condensation components = find_components(whole.rows);
    std::vector<Core> cores;
    for (std::uint32_t c = 0; c < components.size(); ++c) {
        if (!has_cycle(whole.rows, components, c)) continue;
        std::vector<VertexId> part;
        for (std::uint32_t member : components.of(c)) part.push_back(whole.vertices[member]);
        cores.push_back(cut_out(dependencies, graph, std::move(part), numbers));
    }
    std::sort(cores.begin(), cores.end(), [](const Core& a, const Core& b) { return a.vertices.front() < b.vertices.front(); });
    return cores;
}

std::vector<BoneId> bones_of(const Dependencies& dependencies, const Graph& graph, std::span<const VertexId> vertices) {
    std::vector<BoneId> bones;
    for (VertexId v : vertices) {
        const BoneId bone = dependencies.bone_of(graph, v);
        if (bone != none && (bones.empty() || bones.back() != bone)) bones.push_back(bone);
    }
    return bones;
}

Cycle describe_cycle(const Dependencies& dependencies, CycleGraphs& graphs, std::span<const VertexId> component,
                     std::vector<LocalNumbers>& numbers) {
    Cycle cycle;
    cycle.bones = bones_of(dependencies, dependencies.bone, component);
    for (VertexId v : component)
        if (dependencies.bone.vertices[v].kind == VertexKind::property)
            cycle.properties.push_back(dependencies.bone.vertices[v].element);
    for (Grain grain : {Grain::channel, Grain::step, Grain::bone}) {
        const Graph& graph = graphs.at(grain);
        const std::vector<Core> cores = find_cores(dependencies, graph, component, numbers[static_cast<std::size_t>(grain)]);
        if (cores.empty()) continue;
        cycle.grain = grain;
        Witness witness = find_witness(graph, cores);
        cycle.witness = fold_closed_walk(dependencies, graph, std::move(witness.edges));
        cycle.witness_is_shortest = witness.is_shortest;
        for (const Core& core : cores) {
            std::vector<BoneId> bones = bones_of(dependencies, graph, core.vertices);
            std::erase_if(bones, [&](BoneId b) { return !std::binary_search(cycle.bones.begin(), cycle.bones.end(), b); });
            if (!bones.empty()) cycle.cores.push_back(std::move(bones));
        }
        // A loop of whole transforms is three at channel grain, of position, rotation and scale; a reader wants its bones once.
        std::sort(cycle.cores.begin(), cycle.cores.end());
        cycle.cores.erase(std::unique(cycle.cores.begin(), cycle.cores.end()), cycle.cores.end());
        break;
    }
    return cycle;
}

}  // namespace

std::vector<Cycle> find_cycles(const Rig& rig, const Dependencies& dependencies) {
    const Rows rows = live_rows(dependencies, dependencies.bone);
    const Condensation components = find_components(rows);
    std::vector<std::uint32_t> cyclic;
    for (std::uint32_t c = 0; c < components.size(); ++c)
        if (has_cycle(rows, components, c)) cyclic.push_back(c);
    // Bones come first among the vertices, so a component's first vertex tells whether it has any.
    std::sort(cyclic.begin(), cyclic.end(), [&](std::uint32_t a, std::uint32_t b) {
        const VertexId first_a = components.of(a).front(), first_b = components.of(b).front();
        const VertexId bones = dependencies.bone.first_property;
        return std::pair(first_a < bones, first_a) < std::pair(first_b < bones, first_b);
    });
    CycleGraphs graphs(rig, dependencies, rows, components);
    std::vector<LocalNumbers> numbers(3);
    std::vector<Cycle> cycles;
    for (std::uint32_t c : cyclic) cycles.push_back(describe_cycle(dependencies, graphs, components.of(c), numbers));
    return cycles;
}

}  // namespace ligament
