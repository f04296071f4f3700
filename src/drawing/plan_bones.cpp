// What is to be drawn in the view of all bones?
#include "plan.hpp"

#include <algorithm>
#include <unordered_map>

#include "bundles.hpp"
#include "text.hpp"
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

}  // namespace

Plan plan_bones(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const FoldedRig& folded) {
    Plan plan;
    plan.title = drawable(rig.name);
    plan.subtitle = subtitle_of(rig, dependencies, facts, folded);

    std::vector<const Attachment*> attachment(rig.bones.size(), nullptr);
    for (const Attachment& entry : facts.attachment.deform) attachment[entry.bone] = &entry;

    std::unordered_map<std::string, std::uint32_t> group_ids;
    std::vector<std::size_t> members;
    for (const FoldedVertex& vertex : folded.vertices) {
        const Attachment* own = vertex.kind == VertexKind::bone ? attachment[vertex.element] : nullptr;
        Box& box = plan.boxes.emplace_back();
        box.shape = shape_of(rig, vertex);
        box.name = name_of(rig, dependencies, vertex);
        box.word = word_under(rig, dependencies, vertex);
        box.badges = badges_of(vertex, own);
        box.hover = hover_of(rig, dependencies, vertex, own);
        const std::string group = group_of(rig, dependencies, vertex);
        if (group.empty()) continue;
        const auto [entry, is_new] = group_ids.try_emplace(group, static_cast<std::uint32_t>(plan.groups.size()));
        if (is_new) plan.groups.push_back({drawable(group), {}}), members.push_back(0);
        box.group = entry->second;
        members[box.group] += vertex.kind == VertexKind::bone;
    }
    for (std::size_t g = 0; g < plan.groups.size(); ++g)
        plan.groups[g].hover = "group " + isolated(plan.groups[g].name) + "\n" + number_of(members[g], "bone");

    const std::vector<bool> bundled = plan_bundles(rig, dependencies, facts, folded, plan);
    for (std::size_t i = 0; i < folded.arrows.size(); ++i) {
        if (bundled[i]) continue;
        const FoldedArrow& from = folded.arrows[i];
        Arrow& arrow = plan.arrows.emplace_back();
        arrow.from = from.from, arrow.to = from.to, arrow.kind = from.kind, arrow.inert = from.inert;
        arrow.cycle = from.cycle != 0, arrow.witness = from.witness;
        arrow.word = label_of(rig, dependencies, folded, from);
        arrow.hover = hover_of(rig, dependencies, folded, from);
    }
    return plan;
}

}  // namespace ligament
