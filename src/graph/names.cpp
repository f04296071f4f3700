// How are vertices, edges and their makers called, and where do they stand in the file?
#include <array>

#include "ligament/graph.hpp"

namespace ligament {

std::string_view name_of(Grain grain) {
    static constexpr std::array<std::string_view, 3> names{"bone", "step", "channel"};
    return names[static_cast<std::size_t>(grain)];
}

std::string_view name_of(EdgeKind kind) {
    static constexpr std::array<std::string_view, 6> names{"parent", "constraint", "driver", "solver", "curve", "order"};
    return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(VertexKind kind) {
    static constexpr std::array<std::string_view, 12> names{"bone",  "pose",  "solved",   "constraint", "local",  "base",
                                                            "final", "curve", "property", "driver",     "object", "solver"};
    return names[static_cast<std::size_t>(kind)];
}

const Constraint& constraint_of(const Rig& rig, const Dependencies& dependencies, ConstraintId id) {
    const ConstraintRef ref = dependencies.constraints[id];
    return rig.bones[ref.bone].constraints[ref.index];
}

std::vector<BoneId> chain_of(const Rig& rig, const Dependencies& dependencies, ConstraintId solver) {
    const std::uint32_t length = constraint_of(rig, dependencies, solver).chain;
    std::vector<BoneId> chain{dependencies.constraints[solver].bone};
    while (chain.size() < length && rig.bones[chain.back()].parent != none) chain.push_back(rig.bones[chain.back()].parent);
    return chain;
}

bool Dependencies::is_weight_edge(const Edge& edge) const {
    const Maker& made_by = makers[edge.maker];
    if (made_by.kind != Maker::Kind::driver) return false;
    const DriverUse::Target target = driver_uses[made_by.element].target;
    return target == DriverUse::Target::weight || target == DriverUse::Target::source_weight;
}

BoneId Dependencies::bone_of(const Graph& graph, VertexId v) const {
    if (v >= graph.first_property) return none;
    const Vertex& vertex = graph.vertices[v];
    return vertex.kind == VertexKind::constraint ? constraints[vertex.element].bone : vertex.element;
}

std::string constraint_name(const Rig& rig, const Dependencies& dependencies, ConstraintId id) {
    return rig.bones[dependencies.constraints[id].bone].name + "/" + constraint_of(rig, dependencies, id).name;
}

namespace {

std::string driver_name(const Rig& rig, const Dependencies& dependencies, DriverId id) {
    const DriverUse& use = dependencies.driver_uses[id];
    switch (use.target) {
        case DriverUse::Target::weight:
        case DriverUse::Target::source_weight:
            return constraint_name(rig, dependencies, use.element);
        case DriverUse::Target::channel:
            return rig.bones[use.element].name + "/" + std::string(channel_name(use.index));
        case DriverUse::Target::property:
            return rig.properties[use.element].name;
        case DriverUse::Target::nothing:
            return "nothing";
    }
    return {};
}

}  // namespace

std::string name_of(const Rig& rig, const Dependencies& dependencies, MakerId maker) {
    const Maker& made_by = dependencies.makers[maker];
    switch (made_by.kind) {
        case Maker::Kind::stack:
        case Maker::Kind::parent_link:
        case Maker::Kind::curve_handles:
            return rig.bones[made_by.element].name;
        case Maker::Kind::follows:
            return rig.objects[made_by.element].name;
        case Maker::Kind::solver:
        case Maker::Kind::constraint:
            return constraint_name(rig, dependencies, made_by.element);
        case Maker::Kind::driver:
            return driver_name(rig, dependencies, made_by.element);
    }
    return {};
}

Place place_of(const Rig& rig, const Dependencies& dependencies, MakerId maker) {
    const Maker& made_by = dependencies.makers[maker];
    switch (made_by.kind) {
        case Maker::Kind::stack:
        case Maker::Kind::parent_link:
            return rig.bones[made_by.element].place;
        case Maker::Kind::curve_handles:
            return rig.bones[made_by.element].curve->place;
        case Maker::Kind::follows:
            return rig.objects[made_by.element].place;
        case Maker::Kind::solver:
        case Maker::Kind::constraint:
            return constraint_of(rig, dependencies, made_by.element).place;
        case Maker::Kind::driver:
            return rig.drivers[made_by.element].place;
    }
    return {};
}

std::string name_of(const Rig& rig, const Dependencies& dependencies, const Graph& graph, VertexId v) {
    static constexpr std::array<std::string_view, 3> parts{" position", " rotation", " scale"};
    const Vertex& vertex = graph.vertices[v];
    std::string name;
    switch (vertex.kind) {
        case VertexKind::bone:
            return rig.bones[vertex.element].name;
        case VertexKind::property:
            return "property " + rig.properties[vertex.element].name;
        case VertexKind::object:
            return "object " + rig.objects[vertex.element].name;
        case VertexKind::driver:
            return "driver of " + driver_name(rig, dependencies, vertex.element);
        case VertexKind::solver:
            return "solver " + constraint_name(rig, dependencies, vertex.element);
        case VertexKind::constraint:
            name = constraint_name(rig, dependencies, vertex.element);
            break;
        default:
            name = rig.bones[vertex.element].name + " " + std::string(name_of(vertex.kind));
    }
    if (vertex.channel == Vertex::whole) return name;
    if (vertex.kind == VertexKind::pose) return name + " " + std::string(channel_name(vertex.channel));
    return name.append(parts[vertex.channel]);
}

}  // namespace ligament
