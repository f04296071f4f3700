// Which mechanism bones does no skin need?
#include <algorithm>

#include "words.hpp"

namespace ligament::checks {

namespace {

bool is_part_of_step(const Graph& graph, VertexId step, VertexId v) {
    return graph.vertices[v].element == graph.vertices[step].element && graph.vertices[v].kind == graph.vertices[step].kind;
}

/// By bone: whether anything of it is needed by a deform bone or an object. As at step grain, where a solver needs its chain as
/// well: who needs a part of a step needs all of it.
std::vector<bool> find_needed(const Checked& checked) {
    const Graph& graph = checked.dependencies.motion;
    std::vector<bool> is_needed(graph.vertices.size(), false);
    std::vector<VertexId> going;
    const auto need = [&](VertexId v) {
        if (is_needed[v]) return;
        const VertexId first = v - (graph.vertices[v].channel == Vertex::whole ? 0u : graph.vertices[v].channel);
        for (v = first; v < graph.vertices.size() && is_part_of_step(graph, first, v); ++v) {
            is_needed[v] = true;
            going.push_back(v);
        }
    };
    for (BoneId bone = 0; bone < checked.rig.bones.size(); ++bone)
        for (VertexId v = graph.first_of_bone[bone]; checked.rig.bones[bone].deform && v < graph.first_of_bone[bone + 1]; ++v)
            need(v);
    for (ObjectId object = 0; object < checked.rig.objects.size(); ++object) need(graph.first_object + object);
    while (!going.empty()) {
        const VertexId v = going.back();
        going.pop_back();
        for (const Edge& edge : graph.needs(v))
            if (!is_needed[edge.from] && !checked.dependencies.is_inert(edge)) need(edge.from);
        if (!going.empty()) continue;
        for (const EdgeInto& into : checked.dependencies.step_only)
            if (is_needed[into.to] && !checked.dependencies.is_inert(into.edge)) need(into.edge.from);
    }
    std::vector<bool> bones;
    for (BoneId bone = 0; bone < checked.rig.bones.size(); ++bone) bones.push_back(is_needed[graph.first_of_bone[bone]]);
    return bones;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const auto is_asked_for = [](const Bone& bone) { return bone.is_mechanism() && bone.role_is_stated; };
    if (std::none_of(checked.rig.bones.begin(), checked.rig.bones.end(), is_asked_for)) return;
    const std::vector<bool> is_needed = find_needed(checked);
    for (BoneId id = 0; id < checked.rig.bones.size(); ++id) {
        const Bone& bone = checked.rig.bones[id];
        if (!is_asked_for(bone) || is_needed[id]) continue;
        Finding& finding = findings.emplace_back(finding_about(self, checked.rig, id));
        finding.message = "mechanism bone " + quoted(bone.name) + " feeds no deform bone and no object";
        finding.hint = "connect it to what should follow it, or take it away";
    }
}

}  // namespace

extern constinit const Check mechanism_idle{
    .name = "mechanism-idle",
    .severity = Severity::warning,
    .summary = "a mechanism bone that feeds no deform bone",
    .what =
        "No way leads from this mechanism bone to a deform bone or an object: over parents, constraints, solvers (its own, or "
        "one in "
        "whose chain it stands), curves, drivers and properties, as far as they are not switched off for good. Bones of a file "
        "that "
        "does not state roles are left out.",
    .harm =
        "It is evaluated at every frame for nothing. Often it is left over from a copied limb, or what should follow it follows "
        "the "
        "bone that it was copied from.",
    .mend = "Connect it, or take it away.",
    .find = find,
};

}  // namespace ligament::checks
