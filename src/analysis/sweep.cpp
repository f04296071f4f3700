#include "sweep.hpp"

#include <algorithm>
#include <utility>

namespace ligament {

std::vector<VertexId> vertices_at(const Dependencies& dependencies, const Graph& graph, std::span<const VertexId> at_bone_grain) {
    std::vector<VertexId> vertices;
    for (VertexId v : at_bone_grain) {
        if (v < dependencies.bone.first_property) {
            for (VertexId step = graph.first_of_bone[v]; step < graph.first_of_bone[v + 1]; ++step) vertices.push_back(step);
            continue;
        }
        vertices.push_back(graph.first_property + (v - dependencies.bone.first_property));
        const Vertex& vertex = dependencies.bone.vertices[v];
        if (graph.grain == Grain::bone || vertex.kind != VertexKind::driver) continue;
        const DriverUse& use = dependencies.driver_uses[vertex.element];
        if (use.target != DriverUse::Target::channel) continue;
        vertices.push_back(graph.first_of_bone[use.element] + (graph.grain == Grain::channel ? use.index : 0));
    }
    std::sort(vertices.begin(), vertices.end());
    vertices.erase(std::unique(vertices.begin(), vertices.end()), vertices.end());
    return vertices;
}

namespace {

struct Sweeper {
    const Dependencies& dependencies;
    const Rows& rows;
    const Condensation& bone_order;
    std::vector<std::uint32_t> number;  ///< by vertex: place in the part at hand; only where there are cycles
    Sweep sweep;

    const Graph& graph() const { return dependencies.motion; }

    void add_group(std::span<const VertexId> group) {
        if (group.size() != 1 && sweep.first.empty())
            for (std::uint32_t g = 0; g <= sweep.members.size(); ++g) sweep.first.push_back(g);
        sweep.members.insert(sweep.members.end(), group.begin(), group.end());
        if (!sweep.first.empty()) sweep.first.push_back(static_cast<std::uint32_t>(sweep.members.size()));
    }
    /// As a group of its own. Nearly all are: by way of add_group each cost a hundred instructions.
    void add(VertexId v) {
        sweep.members.push_back(v);
        if (!sweep.first.empty()) sweep.first.push_back(static_cast<std::uint32_t>(sweep.members.size()));
    }

    /// Poses that nothing drives need nothing.
    void add_free_poses() {
        for (BoneId b = 0; b + 1 < graph().first_of_bone.size(); ++b) {
            const VertexId first = graph().first_of_bone[b];
            for (VertexId v = first; v < first + pose_count(graph(), b); ++v)
                if (rows.of(v).empty()) add(v);
        }
    }

    void add_bone(BoneId bone) {
        const VertexId first = graph().first_of_bone[bone] + pose_count(graph(), bone);
        for (VertexId v = first; v < graph().first_of_bone[bone + 1]; ++v) add(v);
    }

    void add_other(VertexId at_bone_grain) {
        const VertexId v = graph().first_property + (at_bone_grain - dependencies.bone.first_property);
        add(v);
        if (graph().vertices[v].kind != VertexKind::driver) return;
        const DriverUse& use = dependencies.driver_uses[graph().vertices[v].element];
        if (use.target == DriverUse::Target::channel) add(graph().first_of_bone[use.element] + use.index);
    }

    /// Poses that nothing drives, or whose driver is in another component, come elsewhere.
    bool comes_elsewhere(VertexId v, std::uint32_t component) const {
        const BoneId bone = dependencies.bone_of(graph(), v);
        if (bone == none || v >= graph().first_of_bone[bone] + pose_count(graph(), bone)) return false;
        if (rows.of(v).empty()) return true;
        const VertexId driver = rows.of(v).front() - graph().first_property + dependencies.bone.first_property;
        return bone_order.component_of[driver] != component;
    }

    void add_cyclic(std::uint32_t component) {
        std::vector<VertexId> part = vertices_at(dependencies, graph(), bone_order.of(component));
        std::erase_if(part, [&](VertexId v) { return comes_elsewhere(v, component); });
        number.resize(rows.size(), none);
        for (std::uint32_t i = 0; i < part.size(); ++i) number[part[i]] = i;
        Rows inside;
        for (VertexId v : part) {
            for (VertexId from : rows.of(v))
                if (number[from] != none) inside.needs.push_back(number[from]);
            inside.first.push_back(static_cast<std::uint32_t>(inside.needs.size()));
        }
        for (VertexId v : part) number[v] = none;
        const Condensation order = find_components(inside);
        std::vector<VertexId> group;
        for (std::uint32_t c = 0; c < order.size(); ++c) {
            group.clear();
            for (std::uint32_t i : order.of(c)) group.push_back(part[i]);
            add_group(group);
        }
    }
};

}  // namespace

Sweep find_sweep(const Dependencies& dependencies, const Rows& rows) {
    const Rows bone_rows = live_rows(dependencies, dependencies.bone);
    const Condensation bone_order = find_components(bone_rows);
    Sweeper sweeper{dependencies, rows, bone_order, {}, {}};
    sweeper.sweep.members.reserve(rows.size());
    sweeper.add_free_poses();
    for (std::uint32_t c = 0; c < bone_order.size(); ++c) {
        const VertexId v = bone_order.of(c).front();
        if (has_cycle(bone_rows, bone_order, c))
            sweeper.add_cyclic(c);
        else if (v < dependencies.bone.first_property)
            sweeper.add_bone(v);
        else
            sweeper.add_other(v);
    }
    return std::move(sweeper.sweep);
}

}  // namespace ligament
