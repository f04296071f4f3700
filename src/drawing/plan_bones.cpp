// What is to be drawn of bones?
#include "plan.hpp"

#include <algorithm>
#include <unordered_map>

#include "bundles.hpp"
#include "text.hpp"
#include "views.hpp"
#include "words.hpp"

namespace ligament {

bool Box::has(Badge::Kind kind) const {
    return std::any_of(badges.begin(), badges.end(), [&](const Badge& badge) { return badge.kind == kind; });
}

namespace {

Shape shape_of(const Rig& rig, const FoldedVertex& vertex) {
    switch (vertex.kind) {
        case VertexKind::bone: {
            const Bone& bone = rig.bones[vertex.element];
            if (bone.control) return bone.deform ? Shape::control_deform : Shape::control;
            return bone.deform ? Shape::deform : Shape::mechanism;
        }
        case VertexKind::property:
            return Shape::property;
        case VertexKind::object:
            return Shape::object;
        default:
            return Shape::solver;
    }
}

std::string word_under(const Rig& rig, const Dependencies& dependencies, const FoldedVertex& vertex) {
    switch (vertex.kind) {
        case VertexKind::bone:
            return std::string(role_of(rig.bones[vertex.element]));
        case VertexKind::property:
            return "property";
        case VertexKind::object:
            return "object";
        default: {
            const Constraint& solver = constraint_of(rig, dependencies, vertex.element);
            return std::string(name_of(solver.kind)) + (solver.is_inert() ? " solver (off)" : " solver");
        }
    }
}

std::vector<Badge> badges_of(const FoldedVertex& vertex, const Attachment* attachment) {
    std::vector<Badge> badges;
    if (vertex.cycle) badges.push_back({Badge::Kind::cycle, "cycle " + std::to_string(vertex.cycle)});
    if (attachment && attachment->verdict != Verdict::attached)
        badges.push_back({attachment->verdict == Verdict::carried ? Badge::Kind::carried : Badge::Kind::unattached,
                          std::string(name_of(attachment->verdict))});
    return badges;
}

Box box_of(const Subject& subject, const FoldedVertex& vertex) {
    const Attachment* verdict = vertex.kind == VertexKind::bone ? subject.verdict[vertex.element] : nullptr;
    Box box;
    box.shape = shape_of(subject.rig, vertex);
    box.name = name_of(subject.rig, subject.dependencies, vertex);
    box.word = word_under(subject.rig, subject.dependencies, vertex);
    box.badges = badges_of(vertex, verdict);
    box.hover = hover_of(subject.rig, subject.dependencies, vertex, verdict);
    return box;
}

/// Tells of each box in which group it is.
void name_groups(const Subject& subject, const FoldedRig& part, Plan& plan) {
    std::unordered_map<std::string, std::uint32_t> places;
    for (std::size_t v = 0; v < part.vertices.size(); ++v) {
        const std::string group = group_of(subject.rig, subject.dependencies, part.vertices[v]);
        if (group.empty()) continue;
        const auto [entry, is_new] = places.try_emplace(group, static_cast<std::uint32_t>(plan.groups.size()));
        if (is_new) plan.groups.push_back(drawable(group));
        plan.boxes[v].group = entry->second;
    }
}

}  // namespace

Box box_of_bone(const Subject& subject, BoneId bone) { return box_of(subject, subject.folded.vertices[bone]); }

Plan plan_bones(const Subject& subject, const FoldedRig& part) {
    Plan plan;
    for (const FoldedVertex& vertex : part.vertices) plan.boxes.push_back(box_of(subject, vertex));
    name_groups(subject, part, plan);
    const std::vector<bool> bundled = plan_bundles(subject.rig, subject.dependencies, subject.facts, part, plan);
    for (std::size_t i = 0; i < part.arrows.size(); ++i) {
        if (bundled[i]) continue;
        const FoldedArrow& from = part.arrows[i];
        Arrow& arrow = plan.arrows.emplace_back();
        arrow.from = from.from, arrow.to = from.to, arrow.kind = from.kind, arrow.inert = from.inert;
        arrow.cycle = from.cycle != 0, arrow.witness = from.witness;
        arrow.word = label_of(subject.rig, subject.dependencies, part, from);
        arrow.hover = hover_of(subject.rig, subject.dependencies, part, from);
    }
    return plan;
}

}  // namespace ligament
