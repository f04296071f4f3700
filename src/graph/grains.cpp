#include "grains.hpp"

#include <bit>
#include <utility>

namespace ligament {

namespace {

Edge edge_of(const Need& need, VertexId from) {
    Edge edge;
    edge.from = from;
    edge.gate = need.gate;
    edge.maker = need.maker & 0x1fff'ffffu;
    edge.kind_bits = static_cast<std::uint32_t>(need.kind) & 7u;
    return edge;
}

/// How many vertices a step has at channel grain.
std::uint8_t width_of(VertexKind kind) {
    switch (kind) {
        case VertexKind::pose:
            return 9;
        case VertexKind::solved:
        case VertexKind::constraint:
        case VertexKind::local:
        case VertexKind::base:
        case VertexKind::final:
            return 3;
        default:
            return 1;
    }
}

/// Which parts of `need.from` go into part `part` of `need.to`, as bits.
Channels parts_into(const Need& need, unsigned part, VertexKind from) {
    if (!(need.writes >> part & 1u)) return 0;
    switch (need.joining) {
        case Joining::join:
            return need.reads;
        case Joining::inherit:
            return part == static_cast<unsigned>(Part::position) ? Channels{all_parts} : static_cast<Channels>(1u << part);
        case Joining::pass:
            if (from == VertexKind::pose) return static_cast<Channels>(position_channels << 3 * part);
            return static_cast<Channels>(need.reads & 1u << part);
    }
    return 0;
}

/// The vertices that every grain has beside the bones', and where each sort begins.
void add_other_vertices(const Rig& rig, const Dependencies& dependencies, Graph& graph) {
    const auto add = [&graph](VertexKind kind, std::size_t count, VertexId& first) {
        first = static_cast<VertexId>(graph.vertices.size());
        for (std::uint32_t i = 0; i < count; ++i) graph.vertices.push_back({i, kind});
    };
    add(VertexKind::property, rig.properties.size(), graph.first_property);
    add(VertexKind::driver, rig.drivers.size(), graph.first_driver);
    add(VertexKind::object, rig.objects.size(), graph.first_object);
    graph.first_solver = static_cast<VertexId>(graph.vertices.size());
    for (ConstraintId solver : dependencies.solvers) graph.vertices.push_back({solver, VertexKind::solver});
}

std::vector<Vertex> step_vertices_of_bones(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering) {
    std::vector<Vertex> vertices(numbering.first_property);
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        vertices[numbering.pose(b)] = {b, VertexKind::pose};
        vertices[numbering.solved(b)] = {b, VertexKind::solved};
        vertices[numbering.local(b)] = {b, VertexKind::local};
        vertices[numbering.base(b)] = {b, VertexKind::base};
        vertices[numbering.final(rig, b)] = {b, VertexKind::final};
        if (rig.bones[b].curve) vertices[numbering.curve(b)] = {b, VertexKind::curve};
    }
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id)
        if (numbering.step_of[id] < numbering.first_property) vertices[numbering.step_of[id]] = {id, VertexKind::constraint};
    return vertices;
}

/// The first channel-grain vertex of each step, and their number at the end.
std::vector<VertexId> channel_starts(const Graph& step) {
    std::vector<VertexId> starts(step.vertices.size() + 1, 0);
    for (std::size_t v = 0; v < step.vertices.size(); ++v) starts[v + 1] = starts[v] + width_of(step.vertices[v].kind);
    return starts;
}

void add_channel_edges(const Need& need, unsigned part, VertexKind from, VertexId from_start, std::vector<Edge>& edges) {
    for (unsigned parts = parts_into(need, part, from); parts != 0; parts &= parts - 1)
        edges.push_back(edge_of(need, from_start + static_cast<VertexId>(std::countr_zero(parts))));
}

}  // namespace

Graph build_step_graph(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering,
                       const std::vector<Need>& needs) {
    Graph graph;
    graph.grain = Grain::step;
    graph.first_of_bone = numbering.first_of_bone;
    graph.vertices = step_vertices_of_bones(rig, dependencies, numbering);
    add_other_vertices(rig, dependencies, graph);
    graph.rows.reserve(graph.vertices.size() + 1);
    graph.edges.reserve(needs.size());
    auto need = needs.begin();
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        graph.rows.push_back(static_cast<std::uint32_t>(graph.edges.size()));
        for (; need != needs.end() && need->to == v; ++need)
            if (need->at_step) graph.edges.push_back(edge_of(*need, need->from));
    }
    graph.rows.push_back(static_cast<std::uint32_t>(graph.edges.size()));
    return graph;
}

Graph build_channel_graph(const Graph& step, const std::vector<Need>& needs) {
    const std::vector<VertexId> starts = channel_starts(step);
    Graph graph;
    graph.grain = Grain::channel;
    graph.vertices.reserve(starts.back());
    graph.rows.reserve(starts.back() + 1);
    graph.edges.reserve(needs.size() * 4);
    auto need = needs.begin();
    for (VertexId v = 0; v < step.vertices.size(); ++v) {
        const auto first = need;
        while (need != needs.end() && need->to == v) ++need;
        const std::uint8_t width = width_of(step.vertices[v].kind);
        for (std::uint8_t part = 0; part < width; ++part) {
            Vertex vertex = step.vertices[v];
            if (width > 1) vertex.channel = part;
            graph.vertices.push_back(vertex);
            graph.rows.push_back(static_cast<std::uint32_t>(graph.edges.size()));
            for (auto n = first; n != need; ++n)
                add_channel_edges(*n, part, step.vertices[n->from].kind, starts[n->from], graph.edges);
        }
    }
    graph.rows.push_back(static_cast<std::uint32_t>(graph.edges.size()));
    for (VertexId first : step.first_of_bone) graph.first_of_bone.push_back(starts[first]);
    graph.first_property = starts[step.first_property];
    graph.first_driver = starts[step.first_driver];
    graph.first_object = starts[step.first_object];
    graph.first_solver = starts[step.first_solver];
    return graph;
}

Graph build_bone_graph(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering,
                       const std::vector<Need>& needs) {
    Graph graph;
    graph.grain = Grain::bone;
    const auto bones = static_cast<std::uint32_t>(rig.bones.size());
    for (BoneId b = 0; b < bones; ++b) graph.vertices.push_back({b, VertexKind::bone});
    for (BoneId b = 0; b <= bones; ++b) graph.first_of_bone.push_back(b);
    add_other_vertices(rig, dependencies, graph);

    std::vector<VertexId> whole(numbering.end);  // by step vertex: its bone-grain vertex
    for (BoneId b = 0; b < bones; ++b)
        for (VertexId v = numbering.first_of_bone[b]; v < numbering.first_of_bone[b + 1]; ++v) whole[v] = b;
    for (VertexId v = numbering.first_property; v < numbering.end; ++v) whole[v] = bones + (v - numbering.first_property);

    auto need = needs.begin();
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        graph.rows.push_back(static_cast<std::uint32_t>(graph.edges.size()));
        for (; need != needs.end() && whole[need->to] == v; ++need) {
            if (need->at_bone && need->kind != EdgeKind::order) graph.edges.push_back(edge_of(*need, whole[need->from]));
            if (need->at_bone) continue;
            for (const ChannelValue& channel : rig.bones[whole[need->from]].channels) {  // a pose that a solver reads
                if (!channel.value.is_driven()) continue;
                Need driver = *need;
                driver.kind = EdgeKind::driver;
                driver.maker = driver_maker(rig, dependencies, channel.value.driver);
                graph.edges.push_back(edge_of(driver, graph.first_driver + channel.value.driver));
            }
        }
    }
    graph.rows.push_back(static_cast<std::uint32_t>(graph.edges.size()));
    return graph;
}

}  // namespace ligament
