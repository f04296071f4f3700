// Which arrows are drawn as one, because they tie one box to many bones of one group?
#include "bundles.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr std::size_t names_shown = 60, group_name_columns = 24;

struct Bundle {
    std::uint32_t hub = none;  ///< the object or property
    std::uint32_t group = none;
    bool into_hub = false;
    std::vector<std::size_t> arrows;  ///< indices into FoldedRig::arrows

    std::uint32_t bone(const FoldedRig& folded, std::size_t i) const {
        const FoldedArrow& arrow = folded.arrows[arrows[i]];
        return into_hub ? arrow.from : arrow.to;
    }
};

std::vector<Bundle> find_bundles(const FoldedRig& folded, const Plan& plan) {
    std::map<std::tuple<std::uint32_t, std::uint32_t>, Bundle> by_ends;
    for (std::size_t i = 0; i < folded.arrows.size(); ++i) {
        const FoldedArrow& arrow = folded.arrows[i];
        const VertexKind from = folded.vertices[arrow.from].kind, to = folded.vertices[arrow.to].kind;
        const bool followed = from == VertexKind::bone && to == VertexKind::object;
        const bool driven = from == VertexKind::property && to == VertexKind::bone;
        if (arrow.cycle || arrow.inert || (!followed && !driven)) continue;
        const std::uint32_t hub = followed ? arrow.to : arrow.from, group = plan.boxes[followed ? arrow.from : arrow.to].group;
        if (group == none || (driven && group == plan.boxes[hub].group)) continue;
        Bundle& bundle = by_ends[{hub, group}];
        bundle.hub = hub, bundle.group = group, bundle.into_hub = followed;
        bundle.arrows.push_back(i);
    }
    std::vector<Bundle> bundles;
    for (auto& [ends, bundle] : by_ends)
        if (bundle.arrows.size() >= (bundle.into_hub ? followed_in_one : driven_in_one)) bundles.push_back(std::move(bundle));
    return bundles;
}

/// The bone that is evaluated last, which the box of what an object follows stands behind, or first, which the box of what is
/// driven stands before.
std::uint32_t outermost(const Bundle& bundle, const FoldedRig& folded, const Facts& facts) {
    const auto level = [&](std::uint32_t v) {
        const BoneId bone = folded.vertices[v].element;
        return bone < facts.order.level.size() ? facts.order.level[bone] : 0;
    };
    std::uint32_t best = bundle.bone(folded, 0);
    for (std::size_t i = 1; i < bundle.arrows.size(); ++i) {
        const std::uint32_t v = bundle.bone(folded, i);
        if (bundle.into_hub ? level(v) > level(best) : level(v) < level(best)) best = v;
    }
    return best;
}

/// The label of all arrows where they agree, else their kind.
std::string shared_label(const std::vector<std::string>& labels, EdgeKind kind) {
    const bool agree =
        std::all_of(labels.begin(), labels.end(), [&](const std::string& label) { return label == labels.front(); });
    return agree ? labels.front() : std::string(name_of(kind));
}

void add_bundle(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const FoldedRig& folded,
                const Bundle& bundle, Plan& plan) {
    const std::size_t size = bundle.arrows.size();
    std::vector<std::string> labels;
    std::string names;
    for (std::size_t i = 0; i < size; ++i) {
        labels.push_back(label_of(rig, dependencies, folded, folded.arrows[bundle.arrows[i]]));
        if (i < names_shown) names += "\n" + isolated(plan.boxes[bundle.bone(folded, i)].name) + " (" + labels.back() + ")";
    }
    if (size > names_shown) names += "\nshowing " + std::to_string(names_shown) + " of " + std::to_string(size);
    const std::string& group = plan.groups[bundle.group];
    const std::string count = number_of(size, "bone"), whole = count + " of group " + isolated(group);

    const auto place = static_cast<std::uint32_t>(plan.boxes.size());
    const FoldedArrow& first = folded.arrows[bundle.arrows.front()];
    Box box;
    box.shape = Shape::bundle;
    box.name = count;
    box.word = "of " + cut_in_middle(group, 1, group_name_columns * 0.6);
    box.group = bundle.group;
    box.hover = whole + names;
    Arrow arrow;
    arrow.from = bundle.into_hub ? place : bundle.hub;
    arrow.to = bundle.into_hub ? bundle.hub : place;
    arrow.kind = first.kind;
    arrow.word = shared_label(labels, first.kind) + " \u00d7" + std::to_string(size);
    arrow.hover = (bundle.into_hub ? whole + " -> " + isolated(plan.boxes[bundle.hub].name)
                                   : isolated(plan.boxes[bundle.hub].name) + " -> " + whole) +
                  "\n" + std::string(name_of(first.kind)) + names;
    plan.boxes.push_back(std::move(box));
    plan.arrows.push_back(std::move(arrow));
    const std::uint32_t bone = outermost(bundle, folded, facts);
    plan.ties.emplace_back(bundle.into_hub ? bone : place, bundle.into_hub ? place : bone);
}

}  // namespace

std::vector<bool> plan_bundles(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const FoldedRig& folded,
                               Plan& plan) {
    std::vector<bool> bundled(folded.arrows.size(), false);
    for (const Bundle& bundle : find_bundles(folded, plan)) {
        add_bundle(rig, dependencies, facts, folded, bundle, plan);
        for (std::size_t i : bundle.arrows) bundled[i] = true;
    }
    return bundled;
}

}  // namespace ligament
