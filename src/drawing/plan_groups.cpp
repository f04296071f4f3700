// What is to be drawn when a rig is folded to its groups?
#include <algorithm>
#include <map>
#include <tuple>
#include <unordered_map>

#include "plan.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

struct Tally {
    std::string name;  // as in the rig; empty for what is in no group
    std::size_t control = 0, mechanism = 0, deform = 0, both = 0, properties = 0, objects = 0, solvers = 0;
    std::size_t orphaned = 0, root_only = 0, carried = 0, inside = 0;
    std::vector<std::uint32_t> cycles;

    std::size_t bones() const { return control + mechanism + deform + both; }
};

void count_vertex(Tally& tally, const Rig& rig, const FoldedVertex& vertex, const Attachment* attachment) {
    if (vertex.cycle && std::find(tally.cycles.begin(), tally.cycles.end(), vertex.cycle) == tally.cycles.end())
        tally.cycles.push_back(vertex.cycle);
    switch (vertex.kind) {
        case VertexKind::bone: {
            const Bone& bone = rig.bones[vertex.element];
            ++(bone.control ? bone.deform ? tally.both : tally.control : bone.deform ? tally.deform : tally.mechanism);
            break;
        }
        case VertexKind::property:
            ++tally.properties;
            break;
        case VertexKind::object:
            ++tally.objects;
            break;
        default:
            ++tally.solvers;
    }
    if (!attachment) return;
    tally.orphaned += attachment->verdict == Verdict::orphaned;
    tally.root_only += attachment->verdict == Verdict::root_only;
    tally.carried += attachment->verdict == Verdict::carried;
}

std::string contents_of(const Tally& tally) {
    std::string text;
    auto add = [&](std::size_t count, const std::string& noun, bool plural) {
        if (count) text += (text.empty() ? "" : ", ") + (plural ? number_of(count, noun) : std::to_string(count) + " " + noun);
    };
    add(tally.control, "control", false);
    add(tally.mechanism, "mechanism", false);
    add(tally.deform, "deform", false);
    add(tally.both, "control + deform", false);
    add(tally.solvers, "solver", true);
    add(tally.properties, "property", true);
    add(tally.objects, "object", true);
    return text;
}

Box box_of(const Tally& tally) {
    Box box;
    box.shape = Shape::group;
    box.name = tally.name.empty() ? "(in no group)" : drawable(tally.name);
    box.word = tally.bones() > 0 ? number_of(tally.bones(), "bone") : contents_of(tally);
    if (tally.cycles.size() == 1) box.badges.push_back({Badge::Kind::cycle, "cycle " + std::to_string(tally.cycles.front())});
    if (tally.cycles.size() > 1) box.badges.push_back({Badge::Kind::cycle, std::to_string(tally.cycles.size()) + " cycles"});
    if (tally.orphaned) box.badges.push_back({Badge::Kind::unattached, std::to_string(tally.orphaned) + " orphaned"});
    if (tally.root_only) box.badges.push_back({Badge::Kind::unattached, std::to_string(tally.root_only) + " root-only"});
    if (tally.carried) box.badges.push_back({Badge::Kind::carried, std::to_string(tally.carried) + " carried"});
    box.hover = (tally.name.empty() ? box.name : "group " + isolated(box.name)) + "\n" + contents_of(tally) + "\n" +
                number_of(tally.inside, "dependency") + " inside";
    return box;
}

struct Bundle {
    std::size_t count = 0;
    bool cycle = false, witness = false;
    std::vector<std::string> examples;
};

constexpr std::size_t examples_shown = 5;

Arrow arrow_of(const std::tuple<std::uint32_t, std::uint32_t, EdgeKind, bool>& ends, const Bundle& bundle, const Plan& plan) {
    Arrow arrow;
    std::tie(arrow.to, arrow.from, arrow.kind, arrow.inert) = ends;
    arrow.cycle = bundle.cycle, arrow.witness = bundle.witness;
    arrow.word = std::string(name_of(arrow.kind)) + " \u00d7" + std::to_string(bundle.count) + (arrow.inert ? " (off)" : "");
    arrow.hover = isolated(plan.boxes[arrow.from].name) + " -> " + isolated(plan.boxes[arrow.to].name) + "\n" +
                  std::string(name_of(arrow.kind)) + (arrow.inert ? ", inert" : "") + ", " + std::to_string(bundle.count);
    if (bundle.count > bundle.examples.size())
        arrow.hover += ", showing " + std::to_string(bundle.examples.size()) + " of " + std::to_string(bundle.count);
    for (const std::string& example : bundle.examples) arrow.hover += "\n" + example;
    return arrow;
}

}  // namespace

Plan plan_groups(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const FoldedRig& folded) {
    Plan plan;
    plan.by_groups = true;
    plan.title = drawable(rig.name);
    plan.subtitle = subtitle_of(rig, dependencies, facts, folded);

    std::vector<const Attachment*> attachment(rig.bones.size(), nullptr);
    for (const Attachment& entry : facts.attachment.deform) attachment[entry.bone] = &entry;

    std::unordered_map<std::string, std::uint32_t> ids;
    std::vector<Tally> tallies;
    std::vector<std::uint32_t> box_of_vertex;
    for (const FoldedVertex& vertex : folded.vertices) {
        std::string group = group_of(rig, dependencies, vertex);
        const auto [entry, is_new] = ids.try_emplace(group, static_cast<std::uint32_t>(tallies.size()));
        if (is_new) tallies.emplace_back().name = std::move(group);
        box_of_vertex.push_back(entry->second);
        count_vertex(tallies[entry->second], rig, vertex, vertex.kind == VertexKind::bone ? attachment[vertex.element] : nullptr);
    }

    std::map<std::tuple<std::uint32_t, std::uint32_t, EdgeKind, bool>, Bundle> bundles;
    for (const FoldedArrow& arrow : folded.arrows) {
        const std::uint32_t from = box_of_vertex[arrow.from], to = box_of_vertex[arrow.to];
        if (from == to) {
            tallies[from].inside += arrow.makers.size();
            continue;
        }
        Bundle& bundle = bundles[{to, from, arrow.kind, arrow.inert}];
        bundle.count += arrow.makers.size();
        bundle.cycle |= arrow.cycle != 0;
        bundle.witness |= arrow.witness;
        if (bundle.examples.size() < examples_shown)
            bundle.examples.push_back(isolated(name_of(rig, dependencies, folded.vertices[arrow.from])) + " -> " +
                                      isolated(name_of(rig, dependencies, folded.vertices[arrow.to])));
    }
    for (const Tally& tally : tallies) plan.boxes.push_back(box_of(tally));
    for (const auto& [ends, bundle] : bundles) plan.arrows.push_back(arrow_of(ends, bundle, plan));
    return plan;
}

}  // namespace ligament
