// What does the library take a rig to need? Prints all vertices and edges of the three grains of each rig file, tab-separated, so
// that another program can compare them line by line.
#include <iostream>
#include <string>

#include "ligament/graph.hpp"
#include "ligament/read.hpp"

namespace {

using namespace ligament;

std::string key_of(const Rig& rig, const Dependencies& dependencies, ConstraintId id) {
    return rig.bones[dependencies.constraints[id].bone].name + "/" + constraint_of(rig, dependencies, id).name;
}

std::string driver_name(const Rig& rig, const Dependencies& dependencies, DriverId id) {
    const DriverUse& use = dependencies.driver_uses[id];
    switch (use.target) {
        case DriverUse::Target::weight:
            return "weight " + key_of(rig, dependencies, use.element);
        case DriverUse::Target::source_weight:
            return "source" + std::to_string(use.index) + " " + key_of(rig, dependencies, use.element);
        case DriverUse::Target::channel:
            return "channel " + rig.bones[use.element].name + "/" + std::string(channel_name(use.index));
        case DriverUse::Target::property:
            return "property " + rig.properties[use.element].name;
        case DriverUse::Target::nothing:
            break;
    }
    return {};
}

std::string element_name(const Rig& rig, const Dependencies& dependencies, const Vertex& vertex) {
    switch (vertex.kind) {
        case VertexKind::constraint:
        case VertexKind::solver:
            return key_of(rig, dependencies, vertex.element);
        case VertexKind::property:
            return rig.properties[vertex.element].name;
        case VertexKind::driver:
            return driver_name(rig, dependencies, vertex.element);
        case VertexKind::object:
            return rig.objects[vertex.element].name;
        default:
            return rig.bones[vertex.element].name;
    }
}

/// kind, element and channel ("position.x", T, R, S or nothing), tab-separated.
std::string vertex_text(const Rig& rig, const Dependencies& dependencies, const Vertex& vertex) {
    std::string channel;
    if (vertex.channel != Vertex::whole)
        channel =
            vertex.kind == VertexKind::pose ? std::string(channel_name(vertex.channel)) : std::string(1, "TRS"[vertex.channel]);
    return std::string(name_of(vertex.kind)) + "\t" + element_name(rig, dependencies, vertex) + "\t" + channel;
}

void print_graph(const Rig& rig, const Dependencies& dependencies, const Graph& graph) {
    std::cout << "grain\t" << name_of(graph.grain) << "\n";
    for (const Vertex& vertex : graph.vertices) std::cout << "v\t" << vertex_text(rig, dependencies, vertex) << "\n";
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        const std::string target = vertex_text(rig, dependencies, graph.vertices[v]);
        for (const Edge& edge : graph.needs(v)) {
            const Place place = place_of(rig, dependencies, edge.maker);
            std::cout << "e\t" << vertex_text(rig, dependencies, graph.vertices[edge.from]) << "\t" << target << "\t"
                      << name_of(edge.kind()) << "\t" << name_of(rig, dependencies, edge.maker) << "\t"
                      << (dependencies.is_inert(edge) ? "inert" : "live") << "\t" << edge.gate << "\t"
                      << (dependencies.is_weight_edge(edge) ? "weight" : "-") << "\t" << place.line << ":" << place.column
                      << "\n";
        }
    }
}

}  // namespace

int main(int argc, char** argv) {
    std::ios::sync_with_stdio(false);
    for (int i = 1; i < argc; ++i) {
        const ReadResult result = read_rig_file(argv[i]);
        std::cout << "rig\t" << argv[i] << "\n";
        for (const Fault& fault : result.faults)
            std::cout << "fault\t" << fault.place.line << ":" << fault.place.column << "\t" << fault.message << "\n";
        if (!result.rig) continue;
        const Dependencies dependencies = build_dependencies(*result.rig);
        for (const Grain grain : {Grain::channel, Grain::step, Grain::bone})
            print_graph(*result.rig, dependencies, dependencies.at(*result.rig, grain));
    }
}
