// Which controls move nothing?
#include <algorithm>
#include <array>

#include "words.hpp"

namespace ligament::checks {

namespace {

/// Whether anything of a rig is reached from beyond one bone. Targets are bones, then objects.
struct Beyond {
    const Dependencies& dependencies;
    const Graph& graph;  // the motion graph: solvers read the poses of their chains there
    // By vertex that is no bone's, from first_property on: the first two targets that came by.
    std::vector<std::array<std::uint32_t, 2>> reached;

    explicit Beyond(const Dependencies& all)
        : dependencies(all), graph(all.motion), reached(graph.vertices.size() - graph.first_property, {none, none}) {
        std::vector<std::pair<VertexId, std::uint32_t>> going;
        const auto bones = static_cast<BoneId>(graph.first_of_bone.size() - 1);
        for (BoneId bone = 0; bone < bones; ++bone)
            for (VertexId to = graph.first_of_bone[bone]; to < graph.first_of_bone[bone + 1]; ++to) add_behind(to, bone, going);
        for (VertexId to = graph.first_object; to < graph.first_solver; ++to) add_behind(to, target_at(to), going);
        while (!going.empty()) {
            const auto [v, target] = going.back();
            going.pop_back();
            add_behind(v, target, going);
        }
    }

    std::uint32_t target_at(VertexId v) const {
        if (v < graph.first_property) return dependencies.bone_of(graph, v);
        const Vertex& vertex = graph.vertices[v];
        const auto bones = static_cast<std::uint32_t>(graph.first_of_bone.size() - 1);
        return vertex.kind == VertexKind::object ? bones + vertex.element : none;
    }

    // Each vertex is told of two targets at most, so that this ends.
    void add_behind(VertexId v, std::uint32_t target, std::vector<std::pair<VertexId, std::uint32_t>>& going) {
        for_each_need(v, [&](const Edge& edge) {
            // Nearly all edges leave a bone.
            if (edge.from < graph.first_property || dependencies.is_inert(edge) || target_at(edge.from) != none) return;
            auto& [first, second] = reached[edge.from - graph.first_property];
            if (first == target || second != none) return;
            (first == none ? first : second) = target;
            going.emplace_back(edge.from, target);
        });
    }

    /// The edges into v as the step grain has them.
    template <class Use>
    void for_each_need(VertexId v, Use use) const {
        for (const Edge& edge : graph.needs(v)) use(edge);
        const std::vector<EdgeInto>& others = dependencies.step_only;
        if (others.empty()) return;  // as in nearly every rig
        for (auto into = std::lower_bound(others.begin(), others.end(), v,
                                          [](const EdgeInto&other, VertexId vertex) { return other.to < vertex; });
             into != others.end() && into->to == v; ++into)
            use(into->edge);
    }

    /// Whether something other than the bone is reached by way of v, which is no vertex of the bone.
    bool is_beyond(VertexId v, BoneId bone) const {
        if (const std::uint32_t target = target_at(v); target != none) return target != bone;
        const auto& [first, second] = reached[v - graph.first_property];
        return second != none || (first != none && first != bone);
    }
};

std::vector<bool> find_moving(const Checked& checked) {
    const Beyond beyond(checked.dependencies);
    std::vector<bool> is_moving(checked.rig.bones.size(), false);
    const Graph& graph = beyond.graph;
    const auto bone_of = [&](VertexId v) { return checked.dependencies.bone_of(graph, v); };
    for (BoneId owner = 0; owner < is_moving.size(); ++owner) {
        const VertexId first = graph.first_of_bone[owner], end = graph.first_of_bone[owner + 1];
        const auto note = [&](const Edge& edge) {
            const bool stays_inside = edge.from >= first && edge.from < end;  // as most do
            if (stays_inside || edge.from >= graph.first_property || checked.dependencies.is_inert(edge)) return;
            is_moving[bone_of(edge.from)] = true;
        };
        for (VertexId to = first; to < end; ++to) beyond.for_each_need(to, note);
    }
    for (VertexId to = graph.first_property; to < graph.vertices.size(); ++to)
        beyond.for_each_need(to, [&](const Edge& edge) {
            const BoneId bone = bone_of(edge.from);
            if (bone == none || checked.dependencies.is_inert(edge) || !beyond.is_beyond(to, bone)) return;
            is_moving[bone] = true;
        });
    for (PropertyId p = 0; p < checked.rig.properties.size(); ++p) {
        const BoneId bone = checked.rig.properties[p].on;
        if (bone != none && beyond.is_beyond(beyond.graph.first_property + p, bone)) is_moving[bone] = true;
    }
    return is_moving;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const auto is_asked_for = [](const Bone& bone) { return bone.control && !bone.deform && bone.role_is_stated; };
    if (std::none_of(checked.rig.bones.begin(), checked.rig.bones.end(), is_asked_for)) return;
    const std::vector<bool> is_moving = find_moving(checked);
    std::vector<bool> has_property(checked.rig.bones.size(), false);
    for (const Property& property : checked.rig.properties)
        if (property.on != none) has_property[property.on] = true;
    for (BoneId id = 0; id < checked.rig.bones.size(); ++id) {
        const Bone& bone = checked.rig.bones[id];
        if (!is_asked_for(bone) || is_moving[id]) continue;
        Finding& finding = findings.emplace_back(finding_about(self, checked.rig, id));
        finding.message = "control " + quoted(bone.name) + " moves nothing: " +
                          (has_property[id] ? "neither its pose nor a property on it reaches another bone or an object"
                                            : "its pose reaches no other bone and no object");
        finding.hint = "connect it to what it should move, or take it away";
    }
}

}  // namespace

extern constinit const Check control_idle{
    .name = "control-idle",
    .severity = Severity::warning,
    .summary = "a control that moves nothing",
    .what =
        "Neither the pose of this control nor a property on it reaches another bone or an object, over whatever is not switched "
        "off for good. What a property does to the control alone does not count. A control that deforms moves the skin itself. "
        "Controls of a file that does not state roles are left out.",
    .harm = "Animators find a control that does nothing, key it all the same, and report a broken rig.",
    .mend = "Connect the control, or take it away.",
    .find = find,
};

}  // namespace ligament::checks
