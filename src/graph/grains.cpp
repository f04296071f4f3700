#include "grains.hpp"

#include <algorithm>
#include <bit>

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

/// By part of `need.to`, which parts of `need.from` go into it, as bits. A pose that goes on part by part does so wholly.
std::array<Channels, 9> parts_into(const Need& need) {
    std::array<Channels, 9> into{};
    const auto for_each_written = [&](auto parts_of_part) {
        for (unsigned writes = need.writes; writes != 0; writes &= writes - 1) {
            const auto part = static_cast<unsigned>(std::countr_zero(writes));
            into[part] = static_cast<Channels>(parts_of_part(part));
        }
    };
    switch (need.joining) {
        case Joining::join:
            for_each_written([&](unsigned) { return need.reads; });
            break;
        case Joining::inherit:
            for_each_written(
                [](unsigned part) { return part == static_cast<unsigned>(Part::position) ? unsigned{all_parts} : 1u << part; });
            break;
        case Joining::pass:
            if (need.reads == all_channels)
                for_each_written([](unsigned part) { return unsigned{position_channels} << 3 * part; });
            else
                for_each_written([&](unsigned part) { return need.reads & 1u << part; });
            break;
    }
    return into;
}

/// How many of nine bits are set. GCC makes a call of std::popcount where it may count on no such instruction.
constexpr std::array<std::uint8_t, all_channels + 1> count_of = [] {
    std::array<std::uint8_t, all_channels + 1> counts{};
    for (std::size_t bits = 1; bits < counts.size(); ++bits)
        counts[bits] = static_cast<std::uint8_t>(counts[bits / 2] + bits % 2);
    return counts;
}();

bool has_driven_pose(const Bone& bone) {
    return std::any_of(bone.channels.begin(), bone.channels.end(),
                       [](const ChannelValue& channel) { return channel.value.is_driven(); });
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

/// The steps of one bone in the order of their numbers.
void list_steps(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering, BoneId b,
                std::vector<Vertex>& steps) {
    const VertexId first = numbering.first_of_bone[b], end = numbering.first_of_bone[b + 1];
    steps.assign(end - first, {});
    steps[numbering.pose(b) - first] = {b, VertexKind::pose};
    steps[numbering.solved(b) - first] = {b, VertexKind::solved};
    steps[numbering.local(b) - first] = {b, VertexKind::local};
    steps[numbering.base(b) - first] = {b, VertexKind::base};
    steps[numbering.final(rig, b) - first] = {b, VertexKind::final};
    if (rig.bones[b].curve) steps[numbering.curve(b) - first] = {b, VertexKind::curve};
    for (ConstraintId id = dependencies.first_constraint_of_bone[b]; id < dependencies.first_constraint_of_bone[b + 1]; ++id)
        if (numbering.step_of[id] < numbering.first_property) steps[numbering.step_of[id] - first] = {id, VertexKind::constraint};
}

}  // namespace

FinerGrain::FinerGrain(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering, Split split,
                       std::span<const std::uint8_t> marked)
    : split_(split), start_of_(numbering.end, none) {
    graph_.grain = split == Split::step ? Grain::step : Grain::channel;
    graph_.first_of_bone.reserve(rig.bones.size() + 1);
    if (split == Split::motion) {  // enough for most rigs; what is too much is memory never touched
        graph_.vertices.reserve(4 * rig.bones.size() + 6 * dependencies.constraints.size() + numbering.end -
                                numbering.first_property);
        graph_.edges.reserve(8 * rig.bones.size() + 14 * dependencies.constraints.size() + 4 * rig.drivers.size());
    }
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        graph_.first_of_bone.push_back(static_cast<VertexId>(graph_.vertices.size()));
        if (marked.empty() || marked[b]) lay_out_bone(rig, dependencies, numbering, b);
    }
    graph_.first_of_bone.push_back(static_cast<VertexId>(graph_.vertices.size()));
    add_other_vertices(rig, dependencies, graph_);
    for (VertexId v = numbering.first_property; v < numbering.end; ++v)
        start_of_[v] = graph_.first_property + (v - numbering.first_property);
    graph_.rows.reserve(graph_.vertices.size() + 1);
}

void FinerGrain::lay_out_bone(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering, BoneId b) {
    list_steps(rig, dependencies, numbering, b, steps_);
    const VertexId first = numbering.first_of_bone[b];
    for (VertexId i = 0; i < steps_.size(); ++i) {
        if (split_ == Split::motion && is_handed_on(rig, numbering, steps_[i], first + i)) {
            start_of_[first + i] = start_of_[first + i - 1];
            if (steps_[i - 1].kind == VertexKind::constraint) continue;  // what its edges do is told by its kind
            for (std::size_t v = start_of_[first + i]; v < graph_.vertices.size(); ++v) graph_.vertices[v].kind = steps_[i].kind;
            continue;
        }
        start_of_[first + i] = static_cast<VertexId>(graph_.vertices.size());
        const std::uint8_t width = width_of(rig, steps_[i]);
        for (std::uint8_t part = 0; part < width; ++part) {
            if (width > 1) steps_[i].channel = part;
            graph_.vertices.push_back(steps_[i]);
        }
    }
}

/// Whether the step has nothing but what the step before it has.
bool FinerGrain::is_handed_on(const Rig& rig, const Numbering& numbering, const Vertex& step, VertexId v) const {
    switch (step.kind) {
        case VertexKind::solved:
            return !has_driven_pose(rig.bones[step.element]) && numbering.solvers_on(step.element).empty();
        case VertexKind::local:
            return v == numbering.solved(step.element) + 1;
        case VertexKind::final:
            return numbering.late_of[step.element] != v - 1;  // some read a late step for the bone's local, not its final
        default:
            return false;
    }
}

std::uint8_t FinerGrain::width_of(const Rig& rig, const Vertex& step) const {
    if (split_ == Split::step) return 1;
    switch (step.kind) {
        case VertexKind::pose:
            return split_ == Split::motion && !has_driven_pose(rig.bones[step.element]) ? 1 : 9;
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

void FinerGrain::begin_row(VertexId v) {
    while (graph_.rows.size() <= v) graph_.rows.push_back(static_cast<std::uint32_t>(graph_.edges.size()));
}

void FinerGrain::add(std::span<const Need> needs) {
    for (std::size_t first = 0; first < needs.size();) {
        const VertexId start = start_of_[needs[first].to];
        std::size_t end = first + 1;
        while (end < needs.size() && start_of_[needs[end].to] == start) ++end;
        if (start != none) add_vertex(start, needs.subspan(first, end - first));
        first = end;
    }
}

/// `needs` are those of the steps that the vertices from `start` on stand for.
void FinerGrain::add_vertex(VertexId start, std::span<const Need> needs) {
    joined_.clear();
    std::size_t edges = 0;
    for (const Need& need : needs) edges += join(need, start);
    const Vertex vertex = graph_.vertices[start];
    const unsigned width = vertex.channel == Vertex::whole ? 1 : vertex.kind == VertexKind::pose ? 9 : 3;
    std::size_t next = graph_.edges.size();
    begin_row(start);
    graph_.edges.resize(next + edges);
    for (unsigned part = 0; part < width; ++part) {
        if (part > 0) graph_.rows.push_back(static_cast<std::uint32_t>(next));
        for (const Joined& joined : joined_)
            for (unsigned parts = joined.into[part]; parts != 0; parts &= parts - 1) {
                graph_.edges[next] = joined.edge;
                graph_.edges[next++].from += static_cast<VertexId>(std::countr_zero(parts));
            }
    }
}

/// Notes what comes into each part of `need.to` over the need: told once, since the edges are laid down part by part. Gives how
/// many edges these are.
std::size_t FinerGrain::join(const Need& need, VertexId start) {
    const VertexId from = start_of_[need.from];
    if (from == none) return 0;
    Joined joined{edge_of(need, from), parts_into(need)};
    std::size_t edges = 0;
    const auto width = static_cast<unsigned>(std::bit_width(need.writes));
    for (unsigned part = 0; part < width; ++part) edges += count_of[joined.into[part]];
    if (split_ == Split::motion) {
        channel_edges_ += edges;
        step_edges_ += need.at_step ? 1 : 0;
        if (need.at_step && edges == 0) step_only_.push_back({start, joined.edge});
        if (need.kind == EdgeKind::order && from == start) return 0;  // one step handed on to the next
    }
    if (split_ == Split::step) {
        joined.into[0] = need.at_step ? 1 : 0;
        edges = joined.into[0];
    } else if (graph_.vertices[from].channel == Vertex::whole) {
        edges = 0;
        for (unsigned part = 0; part < width; ++part) edges += joined.into[part] = joined.into[part] != 0 ? 1 : 0;
    }
    joined_.push_back(joined);
    return edges;
}

Graph FinerGrain::finish() {
    begin_row(static_cast<VertexId>(graph_.vertices.size()));
    // Of a motion graph what was reserved too much was never touched, and to copy the rest takes as long as to fill it.
    if (split_ != Split::motion) {
        graph_.vertices.shrink_to_fit();
        graph_.edges.shrink_to_fit();
    }
    return std::move(graph_);
}

BoneGrain::BoneGrain(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering)
    : rig_(rig), dependencies_(dependencies), whole_(numbering.end) {
    const auto bones = static_cast<std::uint32_t>(rig.bones.size());
    const std::size_t size = bones + (numbering.end - numbering.first_property);
    graph_.grain = Grain::bone;
    graph_.vertices.reserve(size);
    graph_.rows.reserve(size + 1);
    graph_.edges.reserve(bones + 2 * dependencies.constraints.size() + 3 * rig.drivers.size());
    graph_.first_of_bone.reserve(bones + 1);
    for (BoneId b = 0; b < bones; ++b) graph_.vertices.push_back({b, VertexKind::bone});
    for (BoneId b = 0; b <= bones; ++b) graph_.first_of_bone.push_back(b);
    add_other_vertices(rig, dependencies, graph_);
    for (BoneId b = 0; b < bones; ++b)
        for (VertexId v = numbering.first_of_bone[b]; v < numbering.first_of_bone[b + 1]; ++v) whole_[v] = b;
    for (VertexId v = numbering.first_property; v < numbering.end; ++v) whole_[v] = bones + (v - numbering.first_property);
}

void BoneGrain::add(std::span<const Need> needs) {
    for (const Need& need : needs) {
        const VertexId v = whole_[need.to];
        while (graph_.rows.size() <= v) graph_.rows.push_back(static_cast<std::uint32_t>(graph_.edges.size()));
        if (need.at_bone) {
            if (need.kind != EdgeKind::order) graph_.edges.push_back(edge_of(need, whole_[need.from]));
            continue;
        }
        for (const ChannelValue& channel : rig_.bones[whole_[need.from]].channels) {  // a pose that a solver reads
            if (!channel.value.is_driven()) continue;
            Need driver = need;
            driver.kind = EdgeKind::driver;
            driver.maker = driver_maker(rig_, dependencies_, channel.value.driver);
            graph_.edges.push_back(edge_of(driver, graph_.first_driver + channel.value.driver));
        }
    }
}

Graph BoneGrain::finish() {
    while (graph_.rows.size() <= graph_.vertices.size()) graph_.rows.push_back(static_cast<std::uint32_t>(graph_.edges.size()));
    graph_.edges.shrink_to_fit();
    return std::move(graph_);
}

std::size_t count_channel_vertices(const Rig& rig, const Numbering& numbering) {
    std::size_t count = 3 * std::size_t{numbering.first_property} + (numbering.end - numbering.first_property);
    for (const Bone& bone : rig.bones) count += bone.curve ? 4u : 6u;  // a pose has six more than a step, a curve two less
    return count;
}

Graph build_finer_graph(const Rig& rig, const Dependencies& dependencies, FinerGrain::Split split,
                        std::span<const std::uint8_t> marked) {
    const Numbering numbering = build_numbering(rig, dependencies);
    FinerGrain grain(rig, dependencies, numbering, split, marked);
    wire(rig, numbering, dependencies, marked, [&](std::span<const Need> needs) { grain.add(needs); });
    return grain.finish();
}

}  // namespace ligament
